package pages

import (
	"time"

	"battwright/rules/catalog"
	"battwright/rules/inspect"
	"battwright/rules/units"
)

type jsonHandover struct {
	Schema   int           `json:"schema"`
	House    string        `json:"house,omitempty"`
	Page     string        `json:"page,omitempty"`
	First    []string      `json:"find_out_first"`
	Parts    []jsonPart    `json:"parts,omitempty"`
	Places   []jsonSheet   `json:"places"`
	Before   []string      `json:"before_any_day,omitempty"` // what no day of the calendar holds before
	Calendar []jsonDue     `json:"calendar,omitempty"`
	Closing  []jsonClosing `json:"ready_to_close,omitempty"`
	Caution  string        `json:"closing"`
}

type jsonPart struct {
	Title string   `json:"title"`
	Lines []string `json:"lines"`
}

type jsonClosing struct {
	Group string    `json:"group"`
	Lines []jsonHow `json:"lines"`
}

type jsonSheet struct {
	ID      string       `json:"id"`
	Label   string       `json:"label"`
	Stopped string       `json:"stopped,omitempty"`
	State   string       `json:"state"`
	Stops   []jsonStop   `json:"stops"`
	Ask     []jsonStop   `json:"find_out_first"`
	Settle  []jsonStop   `json:"settle_first"`
	Mind    []string     `json:"mind,omitempty"`     // by whoever works there
	NoSheet string       `json:"no_sheet,omitempty"` // why
	Target  string       `json:"target,omitempty"`   // how far it falls short of what is asked
	Damp    string       `json:"damp,omitempty"`     // what must be settled before the place is closed
	Board   []string     `json:"board_caution,omitempty"`
	Beside  []string     `json:"beside,omitempty"` // needed too: no batt, and not in its price
	Layers  []jsonLayer  `json:"layers,omitempty"`
	DepthIn float64      `json:"depth_in,omitempty"`            // of the new blankets
	Ceiling float64      `json:"depth_to_ceiling_in,omitempty"` // over an old blanket, about
	AreaFt2 float64      `json:"area_ft2"`
	Facing  string       `json:"facing,omitempty"`
	Side    string       `json:"facing_side,omitempty"`
	Sheet   string       `json:"sheet,omitempty"`
	BoardR  float64      `json:"add_outside_r,omitempty"`
	ThereR  float64      `json:"board_there_r,omitempty"` // as somebody said: to be looked for
	GapIn   float64      `json:"keep_empty_in,omitempty"`
	First   []jsonHow    `json:"first,omitempty"`
	Clear   []jsonHow    `json:"clear,omitempty"`
	Leave   []jsonHow    `json:"leave,omitempty"`
	Hold    []jsonHow    `json:"hold,omitempty"`
	Points  []jsonAccept `json:"points,omitempty"`
}

type jsonLayer struct {
	Material    string  `json:"material"`
	Form        string  `json:"form"`
	R           float64 `json:"r"`
	ThicknessIn float64 `json:"thickness_in"`
	RoomIn      float64 `json:"room_in"`
	Across      bool    `json:"across,omitempty"`
}

type jsonHow struct {
	ID   string `json:"id"`
	Text string `json:"text"`
	jsonRef
}

type jsonAccept struct {
	ID     string `json:"id"`
	Title  string `json:"title"`
	Look   string `json:"look"`
	Fails  string `json:"fails"`
	Result string `json:"result"`
	jsonRef
}

type jsonDue struct {
	Day    string `json:"day"`
	Person string `json:"person"`
	Text   string `json:"text"`
}

// JSON writes the handover as one JSON object.
func (h Handover) JSON(o Options) ([]byte, error) {
	out := jsonHandover{Schema: Schema, House: h.Job.Plan.Name, Page: h.Person, First: cleanAll(h.Job.Plan.First()), Places: []jsonSheet{}, Caution: Closing}
	if h.Person != "" {
		page, err := inspect.PageFor(h.Job, h.Person)
		if err != nil {
			return nil, err
		}
		for _, p := range page.Parts {
			out.Parts = append(out.Parts, jsonPart(p))
		}
	}
	for _, p := range h.Job.Plan.Places {
		s, ok := inspect.SheetOf(h.Job, p)
		sheet := jsonSheetOf(s, o)
		if !ok && !p.Stopped() {
			sheet.NoSheet = noSheet(p, o)
		}
		out.Places = append(out.Places, sheet)
	}
	if !h.Drywall.IsZero() && len(inspect.Leads(h.Job)) > 0 {
		out.Before = cleanAll(h.beforeDays(o))
		for _, d := range inspect.Calendar(inspect.Leads(h.Job), h.Drywall, h.Person) {
			out.Calendar = append(out.Calendar, jsonDue{d.Day.Format(time.DateOnly), d.Lead.Person, d.Lead.Text.In(o.System)})
		}
	}
	if h.Person == "" || h.Person == "self" {
		for _, g := range inspect.ClosingGroups {
			out.Closing = append(out.Closing, jsonClosing{g.Group, jsonHows(inspect.HouseNotes(h.Job, g.Group, ""), o.System)})
		}
	}
	return encode(out, false)
}

func jsonSheetOf(s inspect.Sheet, o Options) jsonSheet {
	p, sys := s.Plan, o.System
	out := jsonSheet{
		ID: p.Surface.ID, Label: p.Surface.Label, Stopped: p.StopText(), State: p.State(), Stops: jsonStops(p), Ask: jsonAsks(p, o), Settle: jsonSettles(p, o), Mind: p.Minds(sys), AreaFt2: round(p.Surface.AreaFt2, 1), DepthIn: round(s.DepthIn, 2), Ceiling: round(s.CeilingIn, 1),
		Facing: s.Facing, Side: s.Side, Sheet: s.Sheet, BoardR: round(p.Target.AddR, 1), ThereR: round(p.Surface.CIR, 1),
		First: jsonHows(s.First, sys), Clear: jsonHows(s.Clear, sys), Leave: jsonHows(s.Leave, sys), Hold: jsonHows(s.Hold, sys),
	}
	if len(s.Layers) > 0 {
		out.Target, out.Board = p.ShortText(sys), p.BoardCautions()
		out.Damp = inspect.DampGlance(p.Choice.Damp, p.AllDamp())
		for _, x := range p.Beside(sys) {
			out.Beside = append(out.Beside, x.Name)
		}
	}
	if p.Surface.Kind.BesideChimney {
		out.GapIn = p.Surface.Clearance.Inches
	}
	for _, l := range s.Layers {
		out.Layers = append(out.Layers, jsonLayer{p.Choice.MaterialID, l.Product.Form, l.Product.NominalR, l.Product.ThicknessIn, round(l.RoomIn, 2), l.Across})
	}
	for _, x := range s.Points {
		out.Points = append(out.Points, jsonAccept{x.ID, x.Title, x.Look.In(sys), x.Fails.In(sys), x.Result, refOf(x.Ref)})
	}
	return out
}

func jsonHows(list []catalog.HandoverNote, sys units.System) []jsonHow {
	var out []jsonHow
	for _, n := range list {
		out = append(out, jsonHow{n.ID, n.Text.In(sys), refOf(n.Ref)})
	}
	return out
}
