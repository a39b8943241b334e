//go:build ignore

// Command make renders a stroke on film, with what is true of it, and from the same stand a
// long roll. Debian's ffmpeg encodes them: stroke.mp4 has H.264, stroke.webm and roll.webm VP8.
// large.mp4 is the stroke with pixels of half the size, 60 frames a second, for two seconds.
//
//	go run make.go
package main

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"

	"pivotbench/core/film"
	"pivotbench/core/film/filmtest"
	"pivotbench/core/gear"
	"pivotbench/core/motion"
	"pivotbench/core/scenario"
	"pivotbench/core/unit"
	"pivotbench/core/vec"
)

// A truth is what is true of a film, in SI; marks are in pixels.
type truth struct {
	Link   string
	Rate   float64
	Frames int
	Start  float64
	Launch float64
	Speed  float64
	Roll   float64 // rolling resistance of the cloth under the long roll
	Marks  map[string][2]float64
}

func main() {
	const seed = 59
	take := filmtest.Random(rand.New(rand.NewPCG(seed, 16)), 640, 360)
	s := &take.Scene
	s.Start, s.Length = 0.45, 1.3
	s.Noise, s.Coarse = 1, 0 // the codec adds its own
	f := filmtest.New(s)
	bench := scenario.Default()
	bench.Side, bench.Height, bench.Elev = take.Shot.Contact.Side, take.Shot.Contact.Height, take.Shot.Elevation
	out := truth{Rate: s.Rate, Frames: f.Frames(), Start: s.Start, Launch: take.Launch, Speed: take.Speed, Marks: map[string][2]float64{}}
	for _, b := range take.Balls {
		x, y, _ := f.Pixel(vec.V{X: float64(b.At.X), Y: float64(b.At.Y)})
		out.Marks[[]string{"cue", "target", "left", "right"}[b.Role]] = [2]float64{x, y}
		switch b.Role {
		case film.Target:
			bench.Dist = b.At.Y
		case film.Right:
			bench.Gate, bench.Gap = b.At.Y, 2*(b.At.X-unit.Length(s.Radius))
		}
	}
	out.Link = bench.Format()
	h264 := []string{"-c:v", "libx264", "-preset", "slow", "-crf", "22", "-bf", "0", "-movflags", "+faststart"}
	vp8 := []string{"-c:v", "libvpx", "-b:v", "900k", "-crf", "12"}
	encode(s, map[string][]string{"stroke.mp4": h264, "stroke.webm": vp8})

	large := *s
	large.Width, large.Height, large.Focal = 2*s.Width, 2*s.Height, 2*s.Focal
	large.Rate, large.Length = 60, 2
	encode(&large, map[string][]string{"large.mp4": h264})

	const slow = 0.9 // m/s
	cloth := gear.Cloth{Slide: 0.18, Roll: 0.013, SpinDecay: 10, Rebound: 0.5}
	out.Roll = cloth.Roll
	start, _ := s.Path.At(0)
	s.Path = motion.Run(vec.V{X: start.Vel.X, Y: start.Vel.Y}.Mul(slow/take.Speed), vec.V{}, unit.Length(s.Radius), cloth)
	s.Start, s.Length = 0.3, 1.6
	encode(s, map[string][]string{"roll.webm": vp8})

	text, err := json.MarshalIndent(out, "", " ")
	check(err)
	check(os.WriteFile("stroke.json", append(text, '\n'), 0o644))
}

// encode renders a scene into films, each by arguments of ffmpeg.
func encode(s *filmtest.Scene, films map[string][]string) {
	raw, err := os.CreateTemp("", "film-*.y")
	check(err)
	defer os.Remove(raw.Name())
	f := filmtest.New(s)
	for range f.Frames() {
		p, _ := f.Next()
		_, err := raw.Write(p.Luma)
		check(err)
	}
	check(raw.Close())
	for name, codec := range films {
		args := []string{"-v", "error", "-y", "-f", "rawvideo", "-pix_fmt", "gray", "-s", fmt.Sprintf("%dx%d", s.Width, s.Height), "-r", strconv.FormatFloat(s.Rate, 'f', -1, 64), "-i", raw.Name(), "-pix_fmt", "yuv420p", "-fflags", "+bitexact", "-flags", "+bitexact"}
		cmd := exec.Command("ffmpeg", append(append(args, codec...), name)...)
		cmd.Stderr = os.Stderr
		check(cmd.Run())
	}
}

func check(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "make:", err)
		os.Exit(1)
	}
}
