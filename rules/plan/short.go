package plan

import "battwright/rules/units"

// ShortText says by how much the blanket of a place falls short of what is asked
// there, empty where it does not. Every paper that names the blanket says it.
func (p Place) ShortText(s units.System) string {
	if p.Choice == nil || !p.Target.Required || p.Choice.Heat.ShortByR <= 0 {
		return ""
	}
	waived := ""
	if p.Surface.Waived {
		waived = "; you accepted that"
	}
	return "SHORT by " + p.Choice.Heat.ShortOf(p.Target, s) + waived
}
