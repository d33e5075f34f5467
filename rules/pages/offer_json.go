package pages

import (
	"battwright/rules/candidate"
	"battwright/rules/inspect"
	"battwright/rules/units"
)

type jsonOffers struct {
	Schema int         `json:"schema"`
	House  string      `json:"house,omitempty"`
	Offers []jsonOffer `json:"offers"`
	Close  string      `json:"closing"`
}

type jsonOffer struct {
	File       string             `json:"file"`
	From       string             `json:"from"`
	Total      *units.Cents       `json:"total_cents,omitempty"`
	Summed     bool               `json:"total_is_our_sum,omitempty"`
	FallsShort bool               `json:"falls_short"`
	Findings   []jsonFinding      `json:"findings"`
	Questions  []string           `json:"questions"`
	Places     []jsonOfferedPlace `json:"places"`
}

type jsonFinding struct {
	ID     string `json:"id"`
	Level  string `json:"level"`
	Text   string `json:"text"`
	Ask    string `json:"ask,omitempty"`
	Line   int    `json:"line,omitempty"`
	Source string `json:"source,omitempty"`
}

type jsonOfferedPlace struct {
	ID       string        `json:"id"`
	Label    string        `json:"label"`
	Planned  *jsonCompared `json:"plan,omitempty"`
	Offered  *jsonCompared `json:"offered,omitempty"`
	Price    *units.Cents  `json:"price_cents,omitempty"`
	BoardR   float64       `json:"counts_on_board_not_in_bid_r,omitempty"`
	Findings []jsonFinding `json:"findings"`
}

type jsonCompared struct {
	Material   string    `json:"material"`
	LayersR    []float64 `json:"layers_r"`
	HeightIn   float64   `json:"height_in"`
	DeliveredR float64   `json:"delivered_r"`
	AssemblyR  float64   `json:"assembly_r"`
	Damp       string    `json:"damp"`
	Facing     string    `json:"facing"`
}

// OffersJSON writes offers beside the plan as one JSON object.
func OffersJSON(j inspect.Job, offers []inspect.OfferResult) ([]byte, error) {
	out := jsonOffers{Schema: Schema, House: j.Plan.Name, Close: Closing, Offers: []jsonOffer{}}
	for _, r := range offers {
		x := jsonOffer{File: r.Offer.File, From: r.Offer.From(), Summed: r.Summed, FallsShort: r.FallsShort(), Findings: jsonFindings(r.Findings), Questions: r.Questions, Places: []jsonOfferedPlace{}}
		if r.HasTotal {
			x.Total = &r.Total
		}
		if x.Questions == nil {
			x.Questions = []string{}
		}
		for _, p := range r.Places {
			x.Places = append(x.Places, jsonOfferedOf(p))
		}
		out.Offers = append(out.Offers, x)
	}
	return encode(out, false)
}

func jsonOfferedOf(p inspect.OfferedPlace) jsonOfferedPlace {
	out := jsonOfferedPlace{ID: p.Plan.Surface.ID, Label: p.Plan.Surface.Label, BoardR: round(p.BoardR, 1), Findings: jsonFindings(p.Findings)}
	if p.Plan.Choice != nil {
		out.Planned = jsonComparedOf(p.Plan.Choice.Assessed)
	}
	if p.Offered != nil {
		out.Offered = jsonComparedOf(*p.Offered)
	}
	if p.HasPrice {
		out.Price = &p.Price
	}
	return out
}

func jsonComparedOf(a candidate.Assessed) *jsonCompared {
	out := &jsonCompared{
		Material: a.Material.ID, HeightIn: round(a.HeightIn, 2), DeliveredR: round(a.Heat.DeliveredR, 1), AssemblyR: round(a.Heat.AssemblyR, 1),
		Damp: a.Damp.Word, Facing: a.Facing.OnBlanket,
	}
	for _, l := range a.Layers {
		out.LayersR = append(out.LayersR, round(l.Product.NominalR, 1))
	}
	return out
}

func jsonFindings(list []inspect.Finding) []jsonFinding {
	out := []jsonFinding{}
	for _, f := range list {
		out = append(out, jsonFinding{f.ID, f.Level.String(), f.Text, f.Ask, f.Line, f.Ref.Source})
	}
	return out
}
