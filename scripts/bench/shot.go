package main

import (
	"context"
	"fmt"

	"pivotbench/scripts/bench/oneshot"
)

// measureShot tells what one whole shot takes, one hop and a map of hops, here
// and in the browser, and there the strokes of a sitting.
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
	var update, slowest, step, next sample // ms
	for range runs {
		var cost struct {
			oneshot.Cost
			oneshot.SittingCost
		}
		if err := b.Eval("return again()", &cost); err != nil {
			return err
		}
		browser.add(cost.Cost)
		update, slowest = append(update, cost.Update/1e6), append(slowest, cost.Slowest/1e6)
		step, next = append(step, cost.Step/1e6), append(next, cost.Next/1e6)
	}
	r.atMost("one shot, native", native.ns.spread(" ns"), native.ns.median(), 3000, " ns")
	r.atMost("allocations, native", fmt.Sprint(native.allocs), float64(native.allocs), 0, "")
	r.note("one shot, in the browser", browser.ns.spread(" ns"))
	r.atMost("allocations, in the browser", fmt.Sprint(browser.allocs), float64(browser.allocs), 0, "")
	r.atMost("one hop, native", native.hop.spread(" ns"), native.hop.median(), 500_000, " ns")
	r.atMost("one hop, in the browser", browser.hop.spread(" ns"), browser.hop.median(), 500_000, " ns")
	r.atMost("allocations of a hop", fmt.Sprint(browser.hopAllocs), float64(browser.hopAllocs), 0, "")
	r.atMost("a map of hops, in the browser", browser.maps.spread(" ms"), browser.maps.median(), 150, " ms")
	r.atMost("one stroke of a sitting weighed, in the browser", update.spread(" ms"), update.median(), 50, " ms")
	r.atMost("the slowest of a sitting's", slowest.spread(" ms"), slowest.median(), 50, " ms")
	r.atMost("the longest of its steps, between which the page is free", step.spread(" ms"), step.median(), 16, " ms")
	r.atMost("the next stroke suggested, in the browser", next.spread(" ms"), next.median(), 150, " ms")
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
