package catalog

import (
	"slices"

	"battwright/rules/units"
)

// AcceptanceRecords are the records of handing a job over and checking it.
type AcceptanceRecords struct {
	Limits   *AcceptanceLimits `toml:"acceptance_limits"`
	Points   []AcceptancePoint `toml:"acceptance"`
	Grades   []GradeRecord     `toml:"grade"`
	Contract []ContractItem    `toml:"contract_item"`
	Labels   []LabelItem       `toml:"label_item"`
	Leads    []Lead            `toml:"lead"`
	Notes    []HandoverNote    `toml:"handover"`
}

// AcceptanceLimits are the single figures of the checks. Shares are of one.
type AcceptanceLimits struct {
	ThicknessReject float64 `toml:"thickness_reject_share,required"` // of the agreed thickness
	OverTables      float64 `toml:"over_tables_share,required"`      // of the best R known at that thickness
	UnderTables     float64 `toml:"under_tables_share,required"`     // of the poorest
	AreaOff         float64 `toml:"area_off_share,required"`
	SumOff          float64 `toml:"sum_off_share,required"`
	TinyGap         float64 `toml:"tiny_gap_share"`  // of the area, gaps that grade I lets pass
	Points          int     `toml:"points,required"` // measured in each place
	Ref
}

// What follows when a point of acceptance fails.
const (
	ResultFix    = "fix"
	ResultReject = "reject" // taken out and done again
	ResultGrade  = "grade"  // ruled by the grades
	ResultStop   = "stop"   // nothing is closed; somebody is called
)

// The measured answers that can decide a point; a point without one is seen.
const (
	FromChimney   = "chimney"
	FromLabel     = "label"
	FromThickness = "thickness"
	FromVoids     = "voids"
	FromSqueezed  = "squeezed"
	FromFacing    = "facing"
	FromBoard     = "board"      // that the plan counts on beside the blanket
	FromDamp      = "plan-damp"  // the plan itself finds the place damp
	FromBare      = "no-blanket" // the plan has none here
)

// AcceptancePoint is one point a finished job is accepted by.
type AcceptancePoint struct {
	ID     string   `toml:"id,required"`
	Title  string   `toml:"title,required"`
	Remove bool     `toml:"remove"`
	Kinds  []string `toml:"kinds"`  // of place; none means all
	Danger string   `toml:"danger"` // instead of kinds: all in which that may be
	Faced  string   `toml:"faced"`  // yes: only where a face was agreed
	Old    bool     `toml:"old"`    // only in a house that may have old parts
	// The answer that settles it: left out where a yes-or-no is known to be no,
	// or a figure to be above 0.
	SettledBy string      `toml:"settled_by"`
	Needs     string      `toml:"needs"`     // what a rule of the place must require for the point to be there
	Rule      string      `toml:"rule"`      // the rule that must warn at the place for the point to be there
	Unplanned bool        `toml:"unplanned"` // also where no blanket is planned, but something must be minded
	Later     bool        `toml:"later"`     // it goes on the drywall: open until then, and nothing waits for it
	Covered   bool        `toml:"covered"`   // not where the blanket stays visible
	Fills     bool        `toml:"fills"`     // only where the blanket must fill its room in the frame
	Look      units.Prose `toml:"look,required"`
	Fails     units.Prose `toml:"fails,required"`
	Result    string      `toml:"result,required"`
	From      string      `toml:"from"`
	Ask       units.Prose `toml:"ask,required"`
	Bare      units.Prose `toml:"look_unfaced"` // looked for instead where no face was agreed
	Absent    units.Prose `toml:"ask_absent"`   // asked instead where the agreed thing is not there at all
	Unfaced   units.Prose `toml:"ask_unfaced"`  // asked instead where the plan has no face and one was found
	Extra     units.Prose `toml:"ask_extra"`    // asked where something is there that the plan does not count on
	Sheet     units.Prose `toml:"ask_sheet"`    // asked where another sheet is up than agreed
	Other     units.Prose `toml:"ask_other"`    // asked where another face is there than agreed; the agreed blanket follows
	NoSheet   units.Prose `toml:"ask_no_sheet"` // asked where the sheet that was agreed is not up
	Then      units.Prose `toml:"ask_then"`     // asked behind the rest: of a sheet that was not agreed once the face is right, of a gap too small once it is empty
	Side      units.Prose `toml:"ask_side"`     // asked before that where nobody saw toward which side the face is
	Serves    units.Prose `toml:"ask_serves"`   // asked where what is there does the work of what was agreed; its name follows
	Wanted    units.Prose `toml:"ask_wanted"`   // asked where the plan has no retarder, the climate asks for one, and what is there is one
	Swap      units.Prose `toml:"ask_swap"`     // asked there instead where something speaks against what is there
	Drier     units.Prose `toml:"ask_drier"`    // asked where the place as found is drier than as agreed
	Heat      units.Prose `toml:"ask_heat"`     // asked instead where a sheet is near heat
	Barred    units.Prose `toml:"ask_barred"`   // asked instead where the fiber itself may not be there; of a face, the agreed blanket follows
	Ref
}

// For reports whether a place of that kind, faced or not, has the point.
func (p AcceptancePoint) For(kind string, faced bool) bool {
	return (len(p.Kinds) == 0 || slices.Contains(p.Kinds, kind)) && (p.Faced == "" || p.Faced == "yes" == faced)
}

// GradeRecord is one grade of fitting: the most gaps and squeezing it allows,
// as shares of the area, and the least share of the depth left where squeezed.
type GradeRecord struct {
	ID           string      `toml:"id,required"`
	Number       int         `toml:"number,required"`
	Remove       bool        `toml:"remove"`
	VoidMax      float64     `toml:"void_max,required"`
	SqueezedMax  float64     `toml:"squeezed_max,required"`
	DepthLeftMin float64     `toml:"depth_left_min,required"`
	Text         units.Prose `toml:"text,required"`
	Ref
}

// ContractItem is one thing a proper contract says.
type ContractItem struct {
	ID          string      `toml:"id,required"`
	Remove      bool        `toml:"remove"`
	Level       string      `toml:"level,required"` // offer, or part: once for each place
	Key         string      `toml:"key,required"`   // of the answer in an offer file
	Text        units.Prose `toml:"text,required"`
	Ask         units.Prose `toml:"ask,required"`
	Law         bool        `toml:"law"`          // the R-value rule asks for it
	NeedsFacing bool        `toml:"needs_facing"` // only where a face is offered
	Ref
}

// LabelItem is one thing a label, a receipt or a contract of sale carries.
type LabelItem struct {
	ID     string      `toml:"id,required"`
	Remove bool        `toml:"remove"`
	On     string      `toml:"on,required"`
	Text   units.Prose `toml:"text,required"`
	Ref
}

// Lead is what must be done how many days before the drywall, or after it.
type Lead struct {
	ID     string   `toml:"id,required"`
	Remove bool     `toml:"remove"`
	Person string   `toml:"person,required"`
	Days   int      `toml:"days,required"` // before the drywall; below 0 after it
	Kinds  []string `toml:"kinds"`         // of place that it is about; none means all
	Stages []string `toml:"stages"`        // of the house while it still is to do; none means all
	// Only where a chimney or a flue may go up through the house.
	Chimney bool        `toml:"chimney"`
	Needs   string      `toml:"needs"` // as for a point of acceptance
	Text    units.Prose `toml:"text,required"`
	Ref
}

// EffortPeople is how many work at the pace of Traits.Ft2Hour.
const EffortPeople = 2

// HandoverNote is one line for one or several people on the site.
type HandoverNote struct {
	ID        string      `toml:"id,required"`
	Remove    bool        `toml:"remove"`
	Group     string      `toml:"group,required"`
	Pages     []string    `toml:"pages"`
	Kinds     []string    `toml:"kinds"`
	Danger    string      `toml:"danger"` // instead of kinds: all in which that may be
	Materials []string    `toml:"materials"`
	Stages    []string    `toml:"stages"`
	Faced     string      `toml:"faced"`
	Old       bool        `toml:"old"`        // only in a house that may have old parts
	SettledBy string      `toml:"settled_by"` // as for a point of acceptance
	Sizes     []string    `toml:"sizes"`      // of the framing; none means all
	Needs     string      `toml:"needs"`      // what a rule of the place must require for the note to apply
	Rule      string      `toml:"rule"`       // as for a point of acceptance
	Unplanned bool        `toml:"unplanned"`  // as for a point of acceptance
	Text      units.Prose `toml:"text,required"`
	Ref
}

// handOver is what handing over and checking rest on, with the kinds of place of
// what is about a danger.
func (c *Catalog) handOver() *AcceptanceRecords {
	out := must(c.parts[handing]()).AcceptanceRecords
	out.Points, out.Notes = slices.Clone(out.Points), slices.Clone(out.Notes)
	for i, p := range out.Points {
		if p.Danger != "" {
			out.Points[i].Kinds = c.kindsWith(p.Danger)
		}
	}
	for i, n := range out.Notes {
		if n.Danger != "" {
			out.Notes[i].Kinds = c.kindsWith(n.Danger)
		}
	}
	return &out
}
