package film

import "pivotbench/core/unit"

// crops is the most memory for the parts of frames about the places where the ball may be, in
// bytes.
const crops = 24 << 20

// mostLooks is the greatest number of frames of a stroke that are kept.
const mostLooks = 1200

// gone is how long after the ball was last seen, in seconds, its way is over.
const gone = 1.0

// spare makes room if the frames of the stroke under way take too much memory: the stroke ends
// if the ball is no longer seen. While it is, every other frame goes, and while no ball has
// been seen yet, the older half.
func (r *Reader) spare(now unit.Span) {
	k := r.stroke
	if len(k.looked) < mostLooks && r.kept < crops {
		return
	}
	way := k.best()
	switch {
	case len(way) == 0:
		k.looked = append([]look(nil), k.looked[len(k.looked)/2:]...)
	case now-way[len(way)-1].Time > gone:
		r.away = r.settle()
		return
	default:
		for i := range len(k.looked) / 2 {
			k.looked[i] = k.looked[2*i]
		}
		k.looked = append([]look(nil), k.looked[:len(k.looked)/2]...)
	}
	r.kept = 0
	for i := range k.looked {
		for _, s := range k.looked[i].seen {
			if s.crop != nil {
				r.kept += len(s.crop.Luma)
			}
		}
	}
}
