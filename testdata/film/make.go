//go:build ignore

// Command make renders a stroke on film, with what is true of it. Debian's ffmpeg encodes
// it: stroke.mp4 has H.264, stroke.webm VP8.
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
	raw, err := os.CreateTemp("", "film-*.y")
	check(err)
	defer os.Remove(raw.Name())
	for range f.Frames() {
		p, _ := f.Next()
		_, err := raw.Write(p.Luma)
		check(err)
	}
	check(raw.Close())
	for name, codec := range map[string][]string{
		"stroke.mp4":  {"-c:v", "libx264", "-preset", "slow", "-crf", "22", "-bf", "0", "-movflags", "+faststart"},
		"stroke.webm": {"-c:v", "libvpx", "-b:v", "900k", "-crf", "12"},
	} {
		args := []string{"-v", "error", "-y", "-f", "rawvideo", "-pix_fmt", "gray", "-s", "640x360", "-r", strconv.FormatFloat(s.Rate, 'f', -1, 64), "-i", raw.Name(), "-pix_fmt", "yuv420p", "-fflags", "+bitexact", "-flags", "+bitexact"}
		cmd := exec.Command("ffmpeg", append(append(args, codec...), name)...)
		cmd.Stderr = os.Stderr
		check(cmd.Run())
	}
	text, err := json.MarshalIndent(out, "", " ")
	check(err)
	check(os.WriteFile("stroke.json", append(text, '\n'), 0o644))
}

func check(err error) {
	if err != nil {
		fmt.Fprintln(os.Stderr, "make:", err)
		os.Exit(1)
	}
}
