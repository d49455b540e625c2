package plan

// Line is a line of a list in the family's or the hospital's own words.
type Line struct {
	ID       uint32 // from the device that added it, so that two devices never give one twice
	List     List
	Day      int  // days from surgery on which it is due, or NoDay
	Hospital bool // it is the hospital's, not the family's
	Done     bool
	Text     string // at most MaxText characters
}

// NoDay says that a line is due on no day in particular.
const NoDay = -1 << 15

// List names a list. Its number goes into links, so a list keeps its place for ever; new
// ones are added at the end.
type List uint8

// The lists. Limits are what the hospital says about movements (hip precautions and the
// like); they are no list to be ticked, and there are none unless the hospital gives them.
const (
	Ready List = iota
	HomeSetUp
	Equipment
	Washing
	Eating
	Packing
	SurgeryDay
	GoingHome
	FirstNight
	AfterSurgery
	Therapy
	Later
	Limits
	listEnd
)

// ListKeys name the lists in steps.txt, forms and words.
var ListKeys = [listEnd]string{
	"ready", "home", "equipment", "wash", "eat", "pack", "day", "going", "first", "after", "therapy", "later", "limits",
}

// MaxLines bounds the own lines of a plan.
const MaxLines = 200
