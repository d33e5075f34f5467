package catalog

import (
	"slices"
)

var (
	pointResults = []string{ResultFix, ResultReject, ResultGrade, ResultStop}
	pointFroms   = []string{"", FromChimney, FromLabel, FromThickness, FromVoids, FromSqueezed, FromFacing, FromBoard, FromDamp, FromBare}

	// Persons are those a page can be written for.
	Persons = []string{"installer", "framer", "electrician", "plumber", "inspector", "store", "self"}

	noteGroups = []string{
		"first", "clear", "leave", "hold", "change", "framing", "trade", "store", "inspector",
		"order-of-work", "gear", "loft", "licensed", "see", "sign", "photograph", "keep", "certificate",
	}
)

// acceptance checks the records of handing over and checking.
func (k *checker) acceptance() {
	a := k.c.Acceptance()
	if a.Limits == nil {
		k.bad("[acceptance_limits] must be there")
		return
	}
	k.ref("acceptance_limits", a.Limits.Ref)
	k.within("acceptance_limits", "thickness_reject_share", a.Limits.ThicknessReject, 0.5, 1)
	k.within("acceptance_limits", "over_tables_share", a.Limits.OverTables, 1, 2)
	k.within("acceptance_limits", "under_tables_share", a.Limits.UnderTables, 0.1, 1)
	k.within("acceptance_limits", "area_off_share", a.Limits.AreaOff, 0, 0.5)
	k.within("acceptance_limits", "tiny_gap_share", a.Limits.TinyGap, 0, 0.005)
	k.within("acceptance_limits", "sum_off_share", a.Limits.SumOff, 0, 0.5)
	k.within("acceptance_limits", "points", float64(a.Limits.Points), 1, 100)
	k.points()
	k.grades()
	k.handover()
}

func (k *checker) points() {
	for _, p := range k.c.Acceptance().Points {
		what := "acceptance point " + p.ID
		k.ref(what, p.Ref)
		k.names(what, "kinds", "place", p.Kinds...)
		k.names(what, "danger", "danger", p.Danger)
		k.names(what, "rule", "rule", p.Rule)
		k.names(what, "needs", "need of a rule", p.Needs)
		k.names(what, "settled_by", "fact", p.SettledBy)
		if !slices.Contains(pointResults, p.Result) {
			k.bad("%s: result %q; want one of %v", what, p.Result, pointResults)
		}
		if !slices.Contains(pointFroms, p.From) {
			k.bad("%s: from %q; want one of %v", what, p.From, pointFroms)
		}
		if p.Faced != "" && p.Faced != "yes" && p.Faced != "no" {
			k.bad("%s: faced %q; want yes or no", what, p.Faced)
		}
		// What keeps people safe may not rest on memory alone.
		if p.Result == ResultStop && p.Known == Memory {
			k.bad("%s stops the work and rests on memory alone", what)
		}
	}
}

// grades must come best first and never allow less than the one before.
func (k *checker) grades() {
	if len(k.c.Acceptance().Grades) == 0 {
		k.bad("there must be a [[grade]]")
	}
	last := GradeRecord{DepthLeftMin: 1}
	for i, g := range k.c.Acceptance().Grades {
		what := "grade " + g.ID
		k.ref(what, g.Ref)
		k.within(what, "void_max", g.VoidMax, last.VoidMax, 1)
		k.within(what, "squeezed_max", g.SqueezedMax, last.SqueezedMax, 1)
		k.within(what, "depth_left_min", g.DepthLeftMin, 0, last.DepthLeftMin)
		if g.Number != i+1 {
			k.bad("%s: number = %d; want %d, best first", what, g.Number, i+1)
		}
		last = g
	}
}

func (k *checker) handover() {
	a := k.c.Acceptance()
	for _, c := range a.Contract {
		k.ref("contract item "+c.ID, c.Ref)
		if c.Level != "offer" && c.Level != "part" {
			k.bad("contract item %s: level %q; want offer or part", c.ID, c.Level)
		}
	}
	for _, l := range a.Labels {
		k.ref("label item "+l.ID, l.Ref)
	}
	for _, l := range a.Leads {
		k.ref("lead "+l.ID, l.Ref)
		k.within("lead "+l.ID, "days", float64(l.Days), -60, 400)
		k.names("lead "+l.ID, "kinds", "place", l.Kinds...)
		k.names("lead "+l.ID, "needs", "need of a rule", l.Needs)
		k.names("lead "+l.ID, "stages", "stage", l.Stages...)
		k.oneOf("lead "+l.ID, "person", l.Person, Persons)
	}
	for _, n := range a.Notes {
		what := "handover note " + n.ID
		k.ref(what, n.Ref)
		k.names(what, "kinds", "place", n.Kinds...)
		k.names(what, "danger", "danger", n.Danger)
		k.oneOf(what, "group", n.Group, noteGroups)
		for _, p := range n.Pages {
			k.oneOf(what, "pages", p, Persons)
		}
		k.names(what, "rule", "rule", n.Rule)
		k.names(what, "needs", "need of a rule", n.Needs)
		k.names(what, "settled_by", "fact", n.SettledBy)
		k.names(what, "materials", "material", n.Materials...)
	}
}

func (k *checker) oneOf(what, key, v string, known []string) {
	if !slices.Contains(known, v) {
		k.bad("%s: %s %q; want one of %v", what, key, v, known)
	}
}
