package view_test

import (
	"pivotbench/core/scenario"
	"pivotbench/core/shot"
)

func play(s *scenario.Scenario) *shot.Result {
	sh, res := s.Shot(), new(shot.Result)
	shot.Play(&sh, res)
	return res
}
