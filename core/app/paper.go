package app

import "newel/core/plan"

func (s *session) paper(p plan.Plan, sheet string) { s.plan(p) }
