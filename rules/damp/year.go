package damp

import (
	"cmp"
	"fmt"

	"battwright/rules/catalog"
	"battwright/rules/moisture"
	"battwright/rules/wetting"
)

// Year is the year of the run that decided the verdict, and of the one that differs
// from it in the holes alone.
type Year struct {
	Wood        bool // bars are the water in wood; else the humidity where most mold is
	Well, Holes Months
}

// Months are twelve months of one run, from January.
type Months struct {
	Case   Case
	Wood   string // what it is of: "OSB sheathing"; empty where no wood is
	MoldOn string // where most mold is; empty where none is
	// Of is the wettest wood: the highest 30-day mean whose middle lies in the
	// month, kg/kg, so that the highest of the year is the one that is judged. Where
	// no wood is, it is the mean humidity at the plane with most mold, 0 to 1.
	Of    [12]float64
	Mold  [12]float64 // highest index of all planes
	Falls [12]bool    // that index falls in the month
	Words [12]string  // Dry, Damp, Wet or Mold
	Adds  [12]float64 // what the month adds to what decided: mold that grows, or water above the mean
}

// What a month is called; from where on, the verdict's own steps say.
const (
	Dry  = "dry"
	Damp = "damp"
	Wet  = "wet"
)

// Case is one run of a place: the face, and what was tried.
type Case struct {
	Face         string
	Cover, Board string  // ids; empty: there is none
	CooledC      float64 // the rooms in summer; 0: not cooled
}

func caseOf(f face, w way, in moisture.Indoor) Case {
	out := Case{Face: f.name}
	if w.cover != nil {
		out.Cover = w.cover.ID
	}
	if w.board != nil {
		out.Board = w.board.ID
	}
	if in.Cooled {
		out.CooledC = in.CoolingC
	}
	return out
}

// String tells a case in tests and tables.
func (c Case) String() string {
	out := c.Face
	if c.Cover != "" {
		out += ", " + c.Cover
	}
	if c.Board != "" {
		out += ", board of " + c.Board
	}
	if c.CooledC != 0 {
		out += fmt.Sprintf(", cooled to %g C", c.CooledC)
	}
	return out
}

// When the damp of a year comes.
const (
	Winter = "winter"
	Summer = "summer" // May to September, the months of a dehumidifier
)

// Season is when the damp comes that decided: when the wood is wettest, or the mold
// grows. Empty where the place holds, and where nobody can tell.
func (v Verdict) Season() string {
	m, decided := v.Year.Well, v.Built
	if v.Word == HoldsIfSealed {
		m, decided = v.Year.Holes, v.WithHoles
	}
	if decided != Edge && decided != Wets && decided != Mold {
		return ""
	}
	summer, winter := 0.0, 0.0
	for i, of := range m.Adds {
		if i >= firstSummer && i <= lastSummer {
			summer += of
		} else {
			winter += of
		}
	}
	switch {
	case summer == 0 && winter == 0:
		return ""
	case summer > winter:
		return Summer
	}
	return Winter
}

// May to September, from 0.
const firstSummer, lastSummer = 4, 8

// daysOf are the days of each month; years are typical ones, of yearD days.
var daysOf = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

const yearD = 365

// monthOf is the month of a day of the year, both from 0; years go round.
func monthOf(day int) int {
	day = (day + yearD) % yearD
	m := 0
	for day >= daysOf[m] {
		day -= daysOf[m]
		m++
	}
	return m
}

// yearOf are the years of the run that decided, with holes or built well, and of its
// twin.
func (j *Judge) yearOf(jobs []job, byHoles bool) Year {
	well := j.decider(jobs, byHoles)
	holes := twin(jobs, well)
	if byHoles {
		well, holes = holes, well
	}
	if well == nil || holes == nil {
		return Year{}
	}
	y := Year{Wood: len(well.result.Skins) > 0 && len(holes.result.Skins) > 0}
	y.Well, y.Holes = monthsOf(well, y.Wood, j.layers.DampVerdict), monthsOf(holes, y.Wood, j.layers.DampVerdict)
	return y
}

// twin is the run that differs from another in the holes alone.
func twin(jobs []job, of *job) *job {
	for i := range jobs {
		if x := &jobs[i]; of != nil && x.apart == of.apart && x.holed != of.holed {
			return x
		}
	}
	return nil
}

// decider is the run with the worst word, of those the one nearest to an alarm, or
// farthest past it.
func (j *Judge) decider(jobs []job, holed bool) *job {
	var out *job
	worst, most := 0, 0.0
	for i := range jobs {
		if jobs[i].holed != holed {
			continue
		}
		var w Worst
		w.add(&jobs[i])
		rank, near := Rank(j.word(w)), max(w.Moisture/j.layers.WetsMoisture, w.Mold/j.layers.DampVerdict.Mold)
		if out == nil || cmp.Or(cmp.Compare(rank, worst), cmp.Compare(near, most)) > 0 {
			out, worst, most = &jobs[i], rank, near
		}
	}
	return out
}

func monthsOf(x *job, wood bool, l catalog.DampVerdict) Months {
	var worst Worst
	worst.add(x)
	m := Months{Case: x.told, Wood: worst.MoistureOf, MoldOn: worst.MoldOn}
	if wood {
		m.wettest(x.result.Skins)
	} else {
		m.humidity(x.result.Planes)
	}
	m.mold(x.result.Planes)
	for i := range m.Words {
		m.Words[i] = monthWord(m.Of[i], m.Mold[i], m.Falls[i], wood, l)
	}
	m.adds(worst.Mold >= l.Mold || worst.Moisture <= l.WetsMoisture && worst.Mold/l.EdgeMold >= worst.Moisture/l.EdgeMoisture)
	return m
}

// adds tells what each month adds: to the mold where that decided, else to the water.
func (m *Months) adds(mold bool) {
	mean := 0.0
	for _, of := range m.Of {
		mean += of / float64(len(m.Of))
	}
	for i := range m.Adds {
		if before := (i + len(m.Mold) - 1) % len(m.Mold); mold && !m.Falls[i] {
			m.Adds[i] = max(0, m.Mold[i]-m.Mold[before])
		} else if !mold {
			m.Adds[i] = max(0, m.Of[i]-mean)
		}
	}
}

// monthWord is what a month is called. Mold that falls is what an earlier month
// left.
func monthWord(of, mold float64, falls, wood bool, l catalog.DampVerdict) string {
	switch {
	case mold >= l.Mold && !falls:
		return Mold
	case wood && of > l.WetsMoisture:
		return Wet
	case wood && of >= l.EdgeMoisture || mold >= l.EdgeMold:
		return Damp
	}
	return Dry
}

func (m *Months) wettest(skins []wetting.SkinYear) {
	var wet *wetting.SkinYear
	for i := range skins {
		if wet == nil || skins[i].Worst > wet.Worst {
			wet = &skins[i]
		}
	}
	first := len(wet.Days) - len(wet.Means)
	for i, mean := range wet.Means {
		at := monthOf(first + i - wetting.MonthD/2)
		m.Of[at] = max(m.Of[at], mean)
	}
}

func (m *Months) humidity(planes []wetting.PlaneYear) {
	var moldy *wetting.PlaneYear
	for i := range planes {
		if moldy == nil || planes[i].Mold > moldy.Mold {
			moldy = &planes[i]
		}
	}
	if moldy == nil {
		return
	}
	for day, d := range moldy.Days {
		at := monthOf(day)
		m.Of[at] += d.RH / float64(daysOf[at])
	}
}

// mold tells the index of the months. The highest of the year is the one that is
// judged, and where it is reached nothing falls.
func (m *Months) mold(planes []wetting.PlaneYear) {
	var days [yearD]float64
	judged := 0.0
	for _, p := range planes {
		judged = max(judged, p.Mold)
		for i, d := range p.Days {
			days[i%yearD] = max(days[i%yearD], d.Mold)
		}
	}
	day, top := 0, 0
	for at, n := range daysOf {
		before := days[max(day-1, 0)]
		for range n {
			m.Mold[at] = max(m.Mold[at], days[day])
			day++
		}
		m.Falls[at] = days[day-1] < before
		if m.Mold[at] > m.Mold[top] {
			top = at
		}
	}
	m.Mold[top], m.Falls[top] = max(m.Mold[top], judged), false
}
