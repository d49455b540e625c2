package app

import "newel/core/desk"

func (s *session) settingsPage(settings *desk.Settings, act string) {}
