package store

import (
	"errors"
	"slices"

	"pivotbench/core/link"
)

const (
	// PlayerKind is the kind of a link that carries a player. See link.Kind.
	PlayerKind    = "player"
	playerVersion = "1"
)

// Fragment returns the record as the fragment of a link, without the #:
//
//	player&v=1&name=Ann&hand=right&bridge=9.5in&when=2026-11-24&end
//
// His strokes are not in it.
func (p *Player) Fragment() string {
	text := PlayerKind + "&v=" + playerVersion
	for _, t := range p.texts() {
		if *t.at != "" {
			text += "&" + t.key + "=" + link.Escape(*t.at)
		}
	}
	return text + "&" + carriedEnd
}

// ReadPlayer reads a player's link from a fragment or a whole address. On an error, which
// names everything that is wrong, it returns an empty record.
func ReadPlayer(address string) (Player, error) {
	pairs, err := carried(address, PlayerKind, playerVersion)
	if err != nil {
		return Player{}, err
	}
	var p Player
	var f faults
	const where = "the link to the player"
	texts := p.texts()
	for i, pair := range pairs {
		at := slices.IndexFunc(texts, func(t playerText) bool { return t.key == pair[0] })
		switch {
		case at < 0:
			f.add(where, "there is no key “"+pair[0]+"”")
		case slices.ContainsFunc(pairs[:i], func(before [2]string) bool { return before[0] == pair[0] }):
			f.add(where, pair[0]+" is given twice")
		default:
			*texts[at].at = pair[1]
		}
	}
	p = p.Clean()
	for _, what := range p.Faults() {
		f.add(where, what)
	}
	if f != nil {
		return Player{}, errors.Join(f...)
	}
	return p, nil
}

// WithPlayer returns the records with a player added. Of two records of one name the one
// that was changed last stays.
func (k Records) WithPlayer(p Player) Records {
	k.Players = onePerName(append(slices.Clip(k.Players), p))
	return k
}
