package page

import "newel/core/guide"

// DeviceState is how far removing everything is.
type DeviceState int

const (
	DeviceKeeps DeviceState = iota // what is kept
	DeviceAsks                     // whether to remove it
	DeviceWorks                    // the shell is at it
	DeviceGone                     // all of it is gone
	DeviceLeft                     // the browser kept some of it
)

// DeviceView is the page about what this device keeps.
type DeviceView struct {
	Voice    guide.Voice
	Calls    Calls
	Fragment string
	State    DeviceState
}

// DeviceTitle is the page's title.
func DeviceTitle(v DeviceView) string {
	switch v.State {
	case DeviceAsks:
		return v.Voice.Say("device.wipe.title")
	case DeviceWorks:
		return v.Voice.Say("device.works")
	case DeviceGone:
		return v.Voice.Say("device.gone")
	case DeviceLeft:
		return v.Voice.Say("device.left")
	default:
		return v.Voice.Say("device.title")
	}
}

// DevicePage makes the page.
func DevicePage(v DeviceView) string { return devicePage(&v) }
