package main

import (
	"context"
	"fmt"

	"pivotbench/scripts/bench/oneshot"
)

// measureShot measures one whole shot, one hop and a map of hops, here and in the
// browser.
func measureShot(ctx context.Context, s *sites, runs int, r *report) error {
	var native, browser costs
	for range runs {
		native.add(oneshot.Measure())
	}
	page, err := s.extraPage("shot.html")
	if err != nil {
		return err
	}
	b, err := openBrowser(ctx, 1)
	if err != nil {
		return err
	}
	defer b.Close()
	if err := b.Get(page); err != nil {
		return err
	}
	for range runs {
		var cost oneshot.Cost
		if err := b.Eval("return again()", &cost); err != nil {
			return err
		}
		browser.add(cost)
	}
	r.atMost("one shot, native", native.ns.spread(" ns"), native.ns.median(), 3000, " ns")
	r.atMost("allocations, native", fmt.Sprint(native.allocs), float64(native.allocs), 0, "")
	r.note("one shot, in the browser", browser.ns.spread(" ns"))
	r.atMost("allocations, in the browser", fmt.Sprint(browser.allocs), float64(browser.allocs), 0, "")
	r.atMost("one hop, native", native.hop.spread(" ns"), native.hop.median(), 500_000, " ns")
	r.atMost("one hop, in the browser", browser.hop.spread(" ns"), browser.hop.median(), 500_000, " ns")
	r.atMost("allocations of a hop", fmt.Sprint(browser.hopAllocs), float64(browser.hopAllocs), 0, "")
	r.atMost("a map of hops, in the browser", browser.maps.spread(" ms"), browser.maps.median(), 150, " ms")
	return compareShots(runs, r)
}

// costs are the results of several runs: the times, and the most allocations.
type costs struct {
	ns, hop, maps     sample // maps in ms
	allocs, hopAllocs int64
}

func (c *costs) add(one oneshot.Cost) {
	c.ns = append(c.ns, one.Ns)
	c.hop = append(c.hop, one.Hop)
	c.maps = append(c.maps, one.Map/1e6)
	c.allocs = max(c.allocs, one.Allocs)
	c.hopAllocs = max(c.hopAllocs, one.HopAllocs)
}
