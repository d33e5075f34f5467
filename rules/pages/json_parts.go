package pages

import (
	"encoding/json"
	"math"

	"battwright/rules/catalog"
	"battwright/rules/plan"
	"battwright/rules/units"
)

// What the JSON forms of plans, orders, sheets, offers and finished work have
// in common. Embedded structs keep their place among the keys.

// encode ends with a line end, so that objects on one line each can follow one
// another.
func encode(v any, oneLine bool) ([]byte, error) {
	if oneLine {
		b, err := json.Marshal(v)
		return append(b, '\n'), err
	}
	b, err := json.MarshalIndent(v, "", "  ")
	return append(b, '\n'), err
}

func round(v float64, places int) float64 {
	k := math.Pow(10, float64(places))
	return math.Round(v*k) / k
}

type jsonCents struct {
	Low     units.Cents `json:"low_cents"`
	Typical units.Cents `json:"typical_cents"`
	High    units.Cents `json:"high_cents"`
}

func centsOf(r units.Range[units.Cents]) jsonCents { return jsonCents{r.Low, r.Typical, r.High} }

// jsonRef is where one record is from.
type jsonRef struct {
	Source string `json:"source"`
	Known  string `json:"known"`
}

func refOf(r catalog.Ref) jsonRef { return jsonRef{r.Source, string(r.Known)} }

func fromIDs(refs []catalog.Ref) []string {
	out := []string{}
	for _, r := range refs {
		out = append(out, r.Source)
	}
	return out
}

// lowToHigh is a range as a list, absent where there is none.
func lowToHigh(r units.Range[float64], places int) []float64 {
	if r.High <= 0 {
		return nil
	}
	return []float64{round(r.Low, places), round(r.Typical, places), round(r.High, places)}
}

type jsonSaid struct {
	Place   string `json:"place,omitempty"`
	Key     string `json:"key"`
	Value   string `json:"value,omitempty"`
	Matters bool   `json:"matters,omitempty"`
}

func said(list []plan.Said) []jsonSaid {
	out := []jsonSaid{}
	for _, s := range list {
		out = append(out, jsonSaid{clean(s.Place), s.Key, clean(s.Value), s.Matters})
	}
	return out
}
