package app

import (
	"newel/core/page"
	"newel/core/plan"
)

// wipe answers the pages about what this device keeps:
//
//	/device         what that is, and a button to remove all of it
//	/device/wipe    asks once more; with the field "sure" it has the shell do it
//
// The shell removes (web/wipe.ts), since only it sees all that the browser keeps. It then asks for
// "/device" with the field "gone", or with "left" where the browser did not let it.
func (s *session) wipe() {
	if s.in.Path == "/device/wipe" && s.field("sure") != "" {
		s.out.Wipe = true
		s.in.Fragment = "" // a plan in the address would be kept again at the next look
	}
	v := page.DeviceView{Voice: s.voice, Calls: page.NewCalls(s.voice, nil, s.in.Fragment), Fragment: s.in.Fragment}
	if d, err := s.decode(s.in.Fragment); err == nil {
		p := planOf(d)
		v.Calls = page.NewCalls(s.voice, &p, s.in.Fragment)
	}
	switch {
	case s.out.Wipe:
		v.State = page.DeviceWorks
	case s.in.Path == "/device/wipe":
		v.State = page.DeviceAsks
	case s.field("gone") != "":
		v.State = page.DeviceGone
	case s.field("left") != "":
		v.State = page.DeviceLeft
	}
	path := s.in.Path
	if v.State == page.DeviceWorks {
		path = "/device" // a reload must not ask for it again
	}
	s.screen(path, page.DeviceTitle(v), page.DevicePage(v))
	s.out.Fragment = s.in.Fragment
	if v.State == page.DeviceGone || v.State == page.DeviceLeft {
		s.out.Say = page.DeviceTitle(v)
	}
}

// wipeRoom is wipe as a room: the near core has it not.
func wipeRoom(s *session, _ plan.Plan, _, _ string) { s.wipe() }
