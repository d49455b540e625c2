package app

import "newel/core/desk"

func (s *session) deskCards(settings *desk.Settings) {}
