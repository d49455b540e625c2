package app

import "newel/core/desk"

func (s *session) class(settings *desk.Settings, day string) {}
