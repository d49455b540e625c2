package app

import "newel/core/plan"

func (s *session) guide(p plan.Plan, page, chapter string) { s.plan(p) }
