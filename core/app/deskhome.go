package app

import "newel/core/desk"

func (s *session) deskHome(settings *desk.Settings) {}

func (s *session) deskRows(settings *desk.Settings) {}

func (s *session) deskMoved(settings *desk.Settings) {}
