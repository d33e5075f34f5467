package candidate

import (
	"math"
	"slices"

	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/rules/units"
)

// Frame is the framing of a place as the blankets meet it.
type Frame struct {
	Size      string
	Practice  string
	DepthIn   float64 // actual depth of the stud or joist
	SpacingIn float64 // middle to middle
	ClearIn   float64 // clear width of a bay
	WoodShare float64 // share of the surface that is wood
	RoomIn    float64 // depth a blanket can have without standing proud
	MustFill  bool    // a blanket thinner than the room leaves an air gap
	From      catalog.Ref
}

// Surface is one place resolved: every answer or its stand-in, and what
// follows from them, before any blanket is looked at.
type Surface struct {
	System                  units.System
	ID, Label               string
	Kind                    catalog.PlaceKind // as it is insulated: its walls for a closed crawl space
	Asked                   string            // the kind the builder chose
	OpenShare               float64           // of the place that its windows and doors take
	AreaFt2                 float64
	Frame                   Frame
	CIR                     float64  // board outside the studs, or foam inside below grade
	Cover, BoardKind        string   // on the drywall, and of the board that is there; damp.Unknown while nobody said
	Pitch                   *float64 // rise of the roof in 12; nil while nobody said
	Ceilings                Ceilings
	UnderJoists             bool // a rule requires a tight layer there
	FoamInBays              bool // a rule requires sealed foam in each bay under the blanket
	EarthBare               bool // nobody said that the earth below is covered
	VentsUnsaid             bool // nobody said that the vents of the roof are open
	FansUnsaid              bool // nobody said that the fans blow outdoors
	FoamUnsaid              bool // nobody said what foam is behind: none is there, the plan buys it
	ExistingR               float64
	OldIn                   float64 // how thick the old blanket of an attic lies, guessed from its R
	Labour                  string
	Sheathing               catalog.Sheet
	Cladding                catalog.Sheet
	Retarder                string // what the builder said goes up: plan, none, or a sheet
	Exposed                 bool
	Dehumid                 bool    // the air beside a wall in the soil is kept dry by a machine
	AboveFt                 float64 // wall above the soil
	HeightFt                float64
	HeelIn                  float64
	AirwayIn                float64 // kept open under the roof boards
	Drywall                 string
	Clearance               Clearance
	RuledOut                []string
	Quotes                  []house.Quote // labels and prices the builder typed
	Pin                     string
	Waived                  bool
	Framed                  bool // its frame stands: a heel or a stud can no longer be ordered otherwise
	Finished                bool // its insulation is in: a board can go on only where something comes off
	MayBeThere              bool // by the stage a blanket may lie there already, and nobody said what does
	MayBeOld                bool // old wiring or old fill may be found here
	Old                     bool // the house is said to have old parts
	HasDrawing              bool
	OwnTarget               bool     // its R was typed for the place itself
	DrawingR, DrawingBoardR float64  // named by the drawings: of the blanket, and of a board beside it
	FoundVoid               *float64 // share of the blanket left empty as measured, nil before
}

// BoardWhen says when a board that is still to be bought can go on, or what a
// wall that is finished takes first.
func (s Surface) BoardWhen() string {
	switch soil := s.Kind.Boundary == "soil"; {
	case s.Finished && soil:
		return "the inside finish has to come off for it: " + askExisting
	case s.Finished:
		return "the siding has to come off for it: " + askExisting
	case soil:
		return "needed before the studs go up"
	case s.Old:
		return "needed before the siding goes on; siding that is on has to come off for it: " + askExisting
	}
	return "needed before the siding goes on"
}

const askExisting = "ask the building department what an existing wall needs before you buy"

func surfaceOf(a house.Answered, p *house.Place) Surface {
	c := a.List.Catalog()
	num := func(key string) float64 { return a.Num(house.PlaceScope, p, key) }
	text := func(key string) string { return a.Text(house.PlaceScope, p, key) }
	s := Surface{
		System: a.System, ID: p.ID, Label: text("label"), Asked: p.Kind,
		CIR: num("ci_r"), ExistingR: num("existing_r"), Retarder: text("retarder"),
		Exposed: a.Bool(house.PlaceScope, p, "exposed"), AboveFt: num("above_grade_ft"), HeightFt: num("height_ft"),
		HeelIn: num("heel_in"), AirwayIn: c.Figure("airway").Value, Drywall: text("drywall"), Waived: a.Bool(house.PlaceScope, p, "waive_target"),
	}
	s.AreaFt2, s.OpenShare = a.Sized(p)
	stage := a.Text(house.Top, nil, "stage")
	s.Finished = stage == "insulated" || stage == "closed"
	s.MayBeThere = s.Finished && (!a.Has(p, "existing_r") || a.Value(house.PlaceScope, p, "existing_r").Source != house.FromAnswer)
	s.Framed = s.Finished || stage == "framed" || stage == "wired"
	s.Old = a.Bool(house.Top, nil, "old")
	s.MayBeOld = a.MayBeOld() || a.Bool(house.PlaceScope, p, "knob_and_tube") || a.Bool(house.PlaceScope, p, "vermiculite")
	s.Kind = *a.KindOf(p)
	if !s.Kind.AsksExposed() {
		s.Exposed = s.Kind.Exposed == catalog.ExposedAlways
	}
	if s.Kind.Boundary == "soil" {
		s.CIR, s.Dehumid = num("foam_r"), a.Bool(house.PlaceScope, p, "dehumidifier")
		s.FoamUnsaid = a.Value(house.PlaceScope, p, "foam_r").Source != house.FromAnswer
		if p.Answers["board_kind"].Text == "mineral-wool" { // fiber on concrete is no foam: the plan buys it
			s.CIR, s.FoamUnsaid = 0, true
		}
	}
	if s.Kind.Size == catalog.SizeRing {
		s.HeightFt = num("wall_height_ft")
	}
	unsaid := func(key string) bool {
		if !a.Has(p, key) {
			return false
		}
		v := a.Value(house.PlaceScope, p, key)
		return !v.Known || !v.Answer.Bool
	}
	s.EarthBare, s.VentsUnsaid, s.FansUnsaid = unsaid("ground_cover"), unsaid("vents_ok"), unsaid("bath_fan_outside")
	s.Labour = text("labor")
	if s.Labour == "" {
		s.Labour = a.Text(house.Budget, nil, "labor")
	}
	s.Sheathing, _ = c.Sheathing(text("sheathing"))
	s.Cladding, _ = c.Cladding(text("cladding"))
	s.nameLayers()
	s.tellDamp(a, p)
	s.DrawingR, s.DrawingBoardR, s.HasDrawing = a.DrawnR(p)
	s.OwnTarget = s.HasDrawing && a.Value(house.PlaceScope, p, "target_r").Source == house.FromAnswer
	s.RuledOut = append(append([]string{}, a.Answer(house.Top, nil, "rule_out").List...), p.Answers["rule_out"].List...)
	if pin := text("pin"); pin != "none" {
		s.Pin = pin
	}
	s.Quotes = a.House.Quotes
	s.Clearance = clearanceOf(a, p)
	if s.Kind.SlopeHoldsLess() {
		s.Ceilings = ceilingsOf(a)
	}
	if s.Kind.StackOverFraming && c.Settings.OldRPerIn > 0 {
		const guessStepIn = 0.5 // a guess: to the half inch
		s.OldIn = math.Round(s.ExistingR/c.Settings.OldRPerIn/guessStepIn) * guessStepIn
	}
	s.Frame = frameOf(a, p, s)
	return s
}

// nameLayers writes the figures in the names of layers in the units shown, once
// for the place and not for each candidate.
func (s *Surface) nameLayers() {
	s.Kind.Layers = slices.Clone(s.Kind.Layers)
	for i := range s.Kind.Layers {
		s.Kind.Layers[i].Name = units.Prose(s.Kind.Layers[i].Name.In(s.System))
	}
	s.Sheathing.Name, s.Cladding.Name = units.Prose(s.Sheathing.Name.In(s.System)), units.Prose(s.Cladding.Name.In(s.System))
}

// tellDamp takes what is answered for the check of damp alone.
func (s *Surface) tellDamp(a house.Answered, p *house.Place) {
	cover, _ := a.Told(p, "inside_cover")
	board, _ := a.Told(p, "board_kind")
	s.Cover, s.BoardKind = cover.Text, board.Text
	if pitch, ok := a.Told(p, "roof_pitch"); ok {
		s.Pitch = &pitch.Number
	}
}

func frameOf(a house.Answered, p *house.Place, s Surface) Frame {
	c := a.List.Catalog()
	f := Frame{
		Size: a.Text(house.PlaceScope, p, "framing.size"), Practice: a.Text(house.PlaceScope, p, "framing.practice"),
		SpacingIn: a.Num(house.PlaceScope, p, "framing.spacing_in"),
	}
	if s.Kind.Derived {
		// A closed crawl space is insulated on its walls, not in the joists
		// that were asked about.
		f.Size, f.Practice, f.SpacingIn = s.Kind.DefaultSize, s.Kind.DefaultPractice, s.Kind.DefaultSpacingIn
	}
	size, _ := c.Size(f.Size)
	f.DepthIn = size.DepthIn
	f.ClearIn = max(0, f.SpacingIn-c.Lumber.ThicknessIn)
	f.WoodShare, f.From, _ = c.WoodShare(s.Kind.ShareElement, f.Practice, f.SpacingIn)
	f.RoomIn = f.DepthIn
	switch {
	case s.Kind.CavityDepthIn > 0:
		f.RoomIn = s.Kind.CavityDepthIn
	case s.Kind.VentChannelIn > 0:
		f.RoomIn = max(0, f.DepthIn-s.Kind.VentChannelIn)
	case s.OldIn > 0:
		f.RoomIn = max(0, f.DepthIn-s.OldIn)
	case s.Kind.BesideChimney:
		f.RoomIn = s.Clearance.BayLeftIn(f.DepthIn)
	}
	// In a stud wall a gap beside the blanket lets air move; under a floor and
	// in a rafter bay the blanket lies against one side and the rest is airway.
	// Beside a chimney a rigid board closes the bay where the blanket ends, and
	// what is left over only widens the gap.
	f.MustFill = s.Kind.HeatFlow == "horizontal" && s.Kind.CavityDepthIn == 0 && !s.Kind.BesideChimney
	return f
}
