//go:build !race

package trial_test

const slow = false
