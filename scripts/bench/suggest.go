package main

import (
	"context"
	"strconv"
	"time"
)

// notedTries is the number of strokes before each measurement of a suggestion, so that
// more than the prior is known.
const notedTries = 6

// measureSuggest times the choice of the next stroke, as the page makes it between two
// strokes: in steps, with the rests between them that leave the page free.
func measureSuggest(ctx context.Context, s *sites, runs int, r *report) error {
	b, err := openSettled(ctx, s)
	if err != nil {
		return err
	}
	defer b.Close()
	if err := b.Eval(`document.querySelector('.tabs [data-section="measure"]').click()`, nil); err != nil {
		return err
	}
	var took sample
	for i := range runs * notedTries {
		outcome := []string{"right", "left", "clean"}[i%3]
		if err := b.Eval(`suggestionTook = 0; document.querySelector('[data-outcome="`+outcome+`"]').click()`, nil); err != nil {
			return err
		}
		if err := b.Wait("suggestionTook > 0", patience); err != nil {
			return err
		}
		var ms float64
		if err := b.Eval("return suggestionTook", &ms); err != nil {
			return err
		}
		took = append(took, ms)
		time.Sleep(300 * time.Millisecond) // for the work after a suggestion
	}
	r.atMost("next stroke, in the browser", took.spread(" ms")+" of "+strconv.Itoa(len(took)), took.median(), 150, " ms")
	return nil
}
