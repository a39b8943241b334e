//go:build race

package trial_test

// slow says that the race detector is on, which makes the largest simulations
// take minutes and finds nothing in them that the small ones don't hold.
const slow = true
