package app

import "newel/core/plan"

func (s *session) line(p plan.Plan, act string) { s.plan(p) }
