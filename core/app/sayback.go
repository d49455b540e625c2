package app

import "newel/core/plan"

func (s *session) sayBack(p plan.Plan) { s.plan(p) }
