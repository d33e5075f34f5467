package inspect

import (
	"slices"
	"strings"

	"battwright/rules"
	"battwright/rules/candidate"
	"battwright/rules/catalog"
	"battwright/rules/house"
)

// faceFault is one thing that differs in the face or the sheet from what was agreed.
type faceFault int

// The faults of the face come before those of the sheet, the wrong side first.
const (
	wrongSide  faceFault = iota // the face lies away from the heated room
	otherFace                   // another than agreed, or one where none was
	noFace                      // none where one was agreed
	noSheet                     // none where one was agreed
	otherSheet                  // another than agreed
	twoInside                   // a sheet that was not agreed over a face toward the room
	looseSheet                  // a sheet where none was agreed
	sideUnseen                  // beside one of these: nobody knows which side the face lies toward
)

// faceFaults lists what differs, each once; nothing that nobody looked at differs.
func (p FoundPlace) faceFaults() []faceFault {
	var out []faceFault
	add := func(so bool, f faceFault) {
		if so {
			out = append(out, f)
		}
	}
	agreed, up := p.Plan.Choice.Facing, p.Answers["sheet"]
	face, turned := p.Measured.Facing, p.turned()
	if p.Answers["facing"].State == house.Given {
		add(turned, wrongSide)
		add(face != agreed.OnBlanket && face != "none", otherFace)
		add(face != agreed.OnBlanket && face == "none", noFace)
	}
	if up.State != house.Given {
		return out
	}
	extra := up.Text != "none" && up.Text != "paint" && up.Text != agreed.Sheet && sheetAgreed(p.Plan) == ""
	add(up.Text == "none" && sheetAgreed(p.Plan) != "", noSheet)
	add(p.otherSheet(), otherSheet)
	add(extra && face != "none" && !turned, twoInside)
	add(extra && (face == "none" || turned), looseSheet)
	add(extra && face != "none" && p.Measured.Side == "" && sided(p.Plan), sideUnseen)
	return out
}

// turned reports whether a face was found away from the heated room.
func (p FoundPlace) turned() bool {
	return p.Measured.Facing != "none" && p.Measured.Side == "out" && sided(p.Plan)
}

// faceFaultText says what differs, every fault of it.
func (p FoundPlace) faceFaultText(c *catalog.Catalog, faults []faceFault) string {
	name := func(id string) string {
		f, _ := c.Facing(id)
		return f.Name
	}
	agreed, has := p.Plan.Choice.Facing, func(f faceFault) bool { return slices.Contains(faults, f) }
	face, sheet := name(p.Measured.Facing), name(p.Answers["sheet"].Text)
	bothOut := has(twoInside) && agreed.Retarder() == "none" && !p.retarderWanted()
	var words []string
	for _, f := range faults {
		switch {
		case f == wrongSide && p.Measured.Facing != agreed.OnBlanket:
			words = append(words, face+" on the wrong side, agreed "+name(agreed.OnBlanket))
		case f == wrongSide:
			words = append(words, face+" on the wrong side; agreed "+agreed.Side)
		case f == noFace, f == otherFace && !has(wrongSide) && !bothOut:
			words = append(words, face+", agreed "+name(agreed.OnBlanket))
		case f == noSheet:
			words = append(words, "no sheet, agreed "+name(sheetAgreed(p.Plan)))
		case f == otherSheet:
			words = append(words, sheet+", agreed "+name(sheetAgreed(p.Plan))+p.trapped())
		case bothOut && f == twoInside:
			words = append(words, face+" and "+sheet+", none agreed: both come out")
		case f == twoInside:
			words = append(words, "two retarders, "+face+" and "+sheet+": one of them comes out")
		case f == looseSheet:
			words = append(words, sheet+", no sheet agreed")
		case f == sideUnseen:
			words = append(words, face+": look toward which side it is")
		}
	}
	return strings.Join(words, "; ")
}

// faceRemedy is what to ask for where the face or the sheet is not as agreed. Each
// way ends with what was agreed, or leaves what does the same work; what slows damp
// air comes out only once something else does.
func (p FoundPlace) faceRemedy(j Job, x catalog.AcceptancePoint) string {
	s, agreed, faults := j.System, p.Plan.Choice.Facing, p.faceFaults()
	has := func(list ...faceFault) bool {
		return slices.ContainsFunc(list, func(f faceFault) bool { return slices.Contains(faults, f) })
	}
	drier := p.takesRetarder() && p.clear() && p.Got.Damp.Judged() && p.Got.Damp.Risk() < p.Plan.Choice.Damp.Risk()
	switch {
	case p.Got != nil && len(p.Got.Verdict.Excluded) > 0 && p.fiberBarred():
		return x.Barred.In(s) + agreedText(p.Plan, j) + "."
	case p.owed():
		return p.owedRemedy(j, x, has)
	case !has(wrongSide, twoInside, otherSheet) && has(otherFace, noFace, looseSheet) && !(has(otherFace) && p.sheetUp()) && p.serves():
		own, _ := j.Catalog().Facing(agreed.Retarder())
		return x.Serves.In(s) + own.Name + "."
	case drier && !has(wrongSide) && !(has(twoInside) && has(otherFace)):
		return x.Drier.In(s)
	}
	put := x.Other.In(s) + agreedText(p.Plan, j) + "."
	sheet := has(twoInside, looseSheet)
	var asks []string
	switch {
	case has(otherFace) && agreed.OnBlanket == "none":
		asks = append(asks, x.Unfaced.In(s))
	case has(otherFace), has(noFace) && (sheet || agreed.OnBlanket != "kraft"):
		asks = append(asks, put)
	case has(noFace):
		asks = append(asks, x.Absent.In(s))
	case has(wrongSide):
		asks = append(asks, x.Ask.In(s))
	}
	if has(sideUnseen) {
		asks = append(asks, x.Side.In(s))
	}
	switch {
	case has(noSheet):
		asks = append(asks, x.NoSheet.In(s))
	case has(otherSheet):
		asks = append(asks, x.Sheet.In(s))
	case sheet && len(asks) > 0 && agreed.Retarder() != "none":
		asks = append(asks, x.Then.In(s))
	case sheet:
		asks = append(asks, x.Extra.In(s))
	}
	if len(asks) == 0 {
		return put
	}
	return strings.Join(asks, " ")
}

// owedRemedy is faceRemedy where none was agreed and the climate asks for a retarder:
// one that is there stays, or another goes in its place.
func (p FoundPlace) owedRemedy(j Job, x catalog.AcceptancePoint, has func(...faceFault) bool) string {
	s := j.System
	face, _ := j.Catalog().Facing(p.Measured.Facing)
	switch {
	case has(wrongSide) && !has(looseSheet):
		return x.Unfaced.In(s)
	case has(wrongSide) && (p.clear() || p.Answers["sheet"].Text == "smart"):
		return x.Unfaced.In(s) + " " + x.Wanted.In(s)
	case has(sideUnseen):
		return x.Side.In(s) + " " + x.Wanted.In(s)
	case has(twoInside) && (face.Class != "I" || p.clear()):
		return x.Extra.In(s) + " " + x.Wanted.In(s)
	case !p.clear() && p.Got != nil && p.Got.Facing.Class == "I":
		return x.Swap.In(s)
	}
	return x.Wanted.In(s)
}

// owed reports whether the plan has no retarder though the climate asks for one, and
// something will cover it.
func (p FoundPlace) owed() bool {
	return p.Plan.Choice.Facing.Retarder() == "none" && p.retarderWanted() && !p.Plan.Surface.Exposed
}

// sheetUp reports whether a sheet is on the room side; paint comes later.
func (p FoundPlace) sheetUp() bool { return p.Measured.Sheet != "" && p.Measured.Sheet != "paint" }

// takesRetarder reports whether a retarder may go on the room side of a place.
func (p FoundPlace) takesRetarder() bool {
	kind := p.Plan.Surface.Kind.Retarder
	return kind == catalog.RetarderByTable || kind == catalog.RetarderByZone
}

// retarderWanted reports whether the climate asks for a retarder on the room side.
func (p FoundPlace) retarderWanted() bool {
	return p.takesRetarder() && p.Plan.Choice.Facing.Asked == candidate.RetarderWanted
}

// serves reports whether what was found on the room side does the work of what was
// agreed there.
func (p FoundPlace) serves() bool {
	return p.clear() && p.Got.Facing.Retarder() != "none" && p.Plan.Choice.Facing.Retarder() != "none"
}

// clear reports whether face and sheet were both seen, and nothing speaks against
// them: no rule, no caution that the plan does not have, no worse damp check. How
// thick the board should be is no fault of the sheet.
func (p FoundPlace) clear() bool {
	if p.Got == nil || !p.FaceSeen() || p.SheetUnjudged() || len(p.Got.Verdict.Excluded) > 0 || p.Damper() || p.trapped() != "" {
		return false
	}
	return !slices.ContainsFunc(p.Got.Verdict.Safety, func(h rules.Hit) bool {
		// What a caution calls for beside is no fault of what is there.
		of := asksOf(h.Rule, bidFacts...) && !asksOf(h.Rule, "thin_board") && h.Rule.Effect.Need == ""
		return of && !warned(p.Plan, h) && !(len(h.Unknown) > 0 && asksOf(h.Rule, "exposed"))
	})
}
