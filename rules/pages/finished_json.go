package pages

import (
	"battwright/rules/inspect"
	"battwright/rules/units"
)

type jsonFound struct {
	Schema int              `json:"schema"`
	House  string           `json:"house,omitempty"`
	By     string           `json:"by,omitempty"`
	Date   string           `json:"date,omitempty"`
	Stop   bool             `json:"stop"`
	Ready  bool             `json:"ready_to_close"`
	Text   string           `json:"text"`
	Places []jsonFoundPlace `json:"places"`
	Ask    []string         `json:"ask_for"`
	Close  string           `json:"closing"`
}

type jsonFoundPlace struct {
	ID        string           `json:"id"`
	Label     string           `json:"label"`
	Result    string           `json:"result"`
	NotSeen   int              `json:"points_not_seen"`
	StopsOpen int              `json:"stop_points_not_seen"`
	Short     string           `json:"short,omitempty"`
	Mind      []string         `json:"mind,omitempty"`
	SeenFt2   float64          `json:"seen_ft2,omitempty"` // where it was a part only
	BoardR    float64          `json:"counts_on_unseen_board_r,omitempty"`
	Grade     int              `json:"grade,omitempty"`
	GradedR   float64          `json:"graded_r"`
	Planned   *jsonCompared    `json:"plan,omitempty"`
	Got       *jsonCompared    `json:"found,omitempty"`
	VoidShare float64          `json:"void_share"`
	Lost      []float64        `json:"lost_mmbtu_year,omitempty"`
	LostCents []units.Cents    `json:"lost_cents_year,omitempty"`
	Points    []jsonFoundPoint `json:"points"`
}

type jsonFoundPoint struct {
	ID    string `json:"id"`
	State string `json:"state"`
	Text  string `json:"text,omitempty"`
	Ask   string `json:"ask,omitempty"`
	jsonRef
}

// FoundJSON writes finished work as one JSON object.
func FoundJSON(j inspect.Job, r inspect.FoundResult) ([]byte, error) {
	out := jsonFound{
		Schema: Schema, House: j.Plan.Name, By: r.By, Date: r.Date, Stop: r.Stops(), Ready: r.ReadyToClose(), Text: FoundVerdict(r),
		Places: []jsonFoundPlace{}, Ask: askFor(r), Close: Closing,
	}
	if out.Ask == nil {
		out.Ask = []string{}
	}
	for _, p := range r.Places {
		out.Places = append(out.Places, jsonFoundOf(p, j.System))
	}
	return encode(out, false)
}

func jsonFoundOf(p inspect.FoundPlace, s units.System) jsonFoundPlace {
	out := jsonFoundPlace{
		ID: p.Plan.Surface.ID, Label: p.Plan.Surface.Label, Result: p.Worst().String(), NotSeen: p.Open(), StopsOpen: p.OpenStops(), BoardR: p.BoardCounted(), GradedR: round(p.GradedR, 1),
		Short: p.ShortText(s), Mind: p.Plan.Minds(s), SeenFt2: round(p.SeenFt2(), 1), VoidShare: round(p.Measured.Fit.Void, 4), Points: []jsonFoundPoint{},
		Lost: lowToHigh(p.LostHeat, 2),
	}
	if p.Worst() == inspect.Pass && (p.Open() > 0 || p.PaintToCome()) { // nothing failed is not passed
		out.Result = inspect.NotSeen.String()
	}
	if p.Plan.Choice != nil {
		out.Planned = jsonComparedOf(p.Plan.Choice.Assessed)
	}
	if p.Plan.Choice != nil && p.Grade.VoidShare() < 1 {
		out.Grade = int(p.Grade)
	}
	if p.Got != nil {
		out.Got = jsonComparedOf(*p.Got)
	}
	if p.LostUSD.High > 0 {
		c := dollarsRange(p.LostUSD)
		out.LostCents = []units.Cents{c.Low, c.Typical, c.High}
	}
	for _, x := range p.Points {
		out.Points = append(out.Points, jsonFoundPoint{x.Point.ID, x.State.String(), x.Text, x.Ask, refOf(x.Point.Ref)})
	}
	return out
}
