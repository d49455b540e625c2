package page_test
import ("testing";"newel/core/page")
func TestZZ(t *testing.T){ s:=exampleSchedule(t); for _,l:=range []string{"en","es"} { for _,id:=range []string{"fridge","pack","helper.1","helper.2","guide"} { v:=paperOf(t,s,l,id,paperDay); t.Log(l,id,v.Pages,page.LinesForTest(&v.Sheets[0])) } } }
