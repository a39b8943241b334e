package store

import (
	"errors"
	"slices"
	"strings"

	"pivotbench/core/link"
)

const (
	// PlayerKind is the kind of a link that carries a player. See link.Kind.
	PlayerKind = "player"
	// A link with strokes is of another version, since copies that read only the first
	// know none.
	playerVersion, playedVersion = "1", "2"
)

// Fragment returns the record, with the player's strokes if there are any, as the fragment
// of a link, without the #:
//
//	player&v=1&name=Ann&hand=right&bridge=9.5in&when=2026-11-24&end
//
// See turnPairs for the strokes.
func (p *Player) Fragment(turns []Turn) string {
	version := playerVersion
	if len(turns) > 0 {
		version = playedVersion
	}
	pairs := []string{PlayerKind, "v=" + version}
	for _, t := range p.texts() {
		if *t.at != "" {
			pairs = append(pairs, t.key+"="+link.Escape(*t.at))
		}
	}
	was := Stroke{}
	for i := range turns {
		pairs = append(pairs, turnPairs(&was, &turns[i].Stroke)...)
		was = turns[i].Stroke
	}
	return strings.Join(append(pairs, carriedEnd), "&")
}

// ReadPlayer reads a player's link from a fragment or a whole address. The records are the
// player and his strokes. On an error, which names everything that is wrong, it returns
// empty records.
func ReadPlayer(address string) (Records, error) {
	pairs, err := carried(address, PlayerKind, playerVersion, playedVersion)
	if err != nil {
		return Records{}, err
	}
	var p Player
	var f faults
	const where = "the link to the player"
	own := len(pairs)
	if i := slices.IndexFunc(pairs, func(pair [2]string) bool { return pair[0] == turnKey }); i >= 0 {
		own = i
	}
	texts := p.texts()
	for i, pair := range pairs[:own] {
		at := slices.IndexFunc(texts, func(t namedText) bool { return t.key == pair[0] })
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
	var turns []Turn
	for _, k := range readTurns(pairs[own:]) {
		turns = append(turns, Turn{p.Name, k})
	}
	turns, _ = sift(&f, "stroke", turns, Turn.Clean, (*Turn).Faults)
	if f != nil {
		return Records{}, errors.Join(f...)
	}
	return Records{Players: []Player{p}, Turns: turns}, nil
}
