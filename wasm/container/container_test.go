package container_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"pivotbench/wasm/container"
)

const folder = "../../testdata/container"

// probed is what ffprobe says of a file.
type probed struct {
	Packets []struct {
		Time  string `json:"pts_time"`
		Size  string
		Pos   string
		Flags string
	}
	Streams []struct {
		Width, Height int
		Side          []struct{ Rotation int } `json:"side_data_list"`
	}
}

func readProbed(t *testing.T) (all map[string]probed) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, "packets.json"))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(text, &all))
	require.Len(t, all, 14)
	return all
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	require.NoError(t, err)
	return v
}

// all returns the pictures of a file.
func all(t *testing.T, content []byte) (f *container.Film, out []container.Packet) {
	t.Helper()
	f, err := container.Open(bytes.NewReader(content), int64(len(content)))
	require.NoError(t, err)
	for {
		p, err := f.Next()
		if err != nil {
			require.ErrorIs(t, err, io.EOF)
			return f, out
		}
		out = append(out, p)
	}
}

// codecs are those of the files, as RFC 6381 and the codecs' own bindings write them.
var codecs = map[string]string{
	"hevc.mp4": "hvc1.1.6.L30.90", "av1.mp4": "av01.0.00M.08", "vp8.webm": "vp8", "vp9.mp4": "vp09.00.10.08", "vp9-live.webm": "vp09.00.41.08",
}

// Every picture of every kind of file has the time, the place, the size and the kind that
// ffprobe gives it.
func TestPacketsAreThoseOfFFprobe(t *testing.T) {
	for name, want := range readProbed(t) {
		t.Run(name, func(t *testing.T) {
			content, err := os.ReadFile(filepath.Join(folder, name))
			require.NoError(t, err)
			f, got := all(t, content)
			require.Len(t, got, len(want.Packets))
			head := 0.0 // ffprobe counts a Matroska block's own head
			if content[0] == 0x1a {
				head = 4
			}
			for i, p := range got {
				w := want.Packets[i]
				assert.InDelta(t, number(t, w.Time), p.Time, 1e-6, "time of %d", i)
				assert.Equal(t, number(t, w.Size), float64(p.Size), "size of %d", i)
				assert.Equal(t, number(t, w.Pos)+head, float64(p.Offset), "place of %d", i)
				assert.Equal(t, strings.HasPrefix(w.Flags, "K"), p.Key, "kind of %d", i)
			}
			assert.Equal(t, want.Streams[0].Width, f.Width)
			assert.Equal(t, want.Streams[0].Height, f.Height)
			turn := 0
			if side := want.Streams[0].Side; len(side) > 0 {
				turn = (4 - side[0].Rotation/90) % 4 // ffprobe's turns go the other way
			}
			assert.Equal(t, turn, f.Turn)
			if codec, ok := codecs[name]; ok {
				assert.Equal(t, codec, f.Codec)
			} else {
				assert.Regexp(t, `^avc1\.64[0-9a-f]{4}$`, f.Codec)
				assert.Equal(t, byte(1), f.Config[0], "an avcC record begins with its version")
			}
		})
	}
}

// However a file is cut, it is refused or its first pictures are read, and never one whose
// bytes are missing.
func TestCutFiles(t *testing.T) {
	for name := range readProbed(t) {
		content, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		_, whole := all(t, content)
		for size := range len(content) {
			f, err := container.Open(bytes.NewReader(content[:size]), int64(size))
			if err != nil {
				require.True(t, errors.Is(err, container.ErrUnknown) || errors.Is(err, container.ErrBroken))
				continue
			}
			for n := 0; ; n++ {
				p, err := f.Next()
				if err != nil {
					require.ErrorIs(t, err, io.EOF)
					break
				}
				require.Less(t, n, len(whole), "%s cut to %d", name, size)
				require.Equal(t, whole[n], p, "%s cut to %d", name, size)
				require.LessOrEqual(t, p.Offset+int64(p.Size), int64(size))
			}
		}
	}
}

// What is no film is told from one that is damaged.
func TestOtherFiles(t *testing.T) {
	for text, want := range map[string]error{
		"":                                 container.ErrUnknown,
		"House 4: 9.6 in":                  container.ErrUnknown,
		"RIFF\x00\x00\x00\x00WAVEfmt ":     container.ErrUnknown,
		"\x00\x00\x00\x08ftyp":             container.ErrBroken,
		"\x00\x00\x00\x08moov":             container.ErrBroken,
		"\x1a\x45\xdf\xa3\x80":             container.ErrUnknown, // shorter than any head
		"\x1a\x45\xdf\xa3\x84\x42\x86\x81": container.ErrBroken,
	} {
		_, err := container.Open(strings.NewReader(text), int64(len(text)))
		assert.ErrorIs(t, err, want, "%q", text)
	}
}

// Junk within a film never makes the reader fail otherwise than in words, or go on without
// end.
func TestJunkInFiles(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for name := range readProbed(t) {
		whole, err := os.ReadFile(filepath.Join(folder, name))
		require.NoError(t, err)
		for range 200 {
			content := bytes.Clone(whole)
			for range 1 + rng.IntN(6) {
				content[rng.IntN(len(content))] = byte(rng.IntN(256))
			}
			film, err := container.Open(bytes.NewReader(content), int64(len(content)))
			for err == nil {
				var p container.Packet
				if p, err = film.Next(); err == nil {
					require.LessOrEqual(t, p.Offset+int64(p.Size), int64(len(content)), name)
				}
			}
		}
	}
}
