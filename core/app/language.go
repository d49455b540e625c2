package app

func (s *session) setLanguage() { s.withPlan("/") }
