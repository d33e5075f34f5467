package order

import (
	"fmt"
	"strings"
	"testing"

	"battwright/rules/house"
	"battwright/rules/plan"
	"battwright/testdata/demo"
	"battwright/testdata/fixture"
)

// made reads a house file and counts its order.
func made(t testing.TB, text string) (Order, plan.Plan, house.Answered) {
	t.Helper()
	a := fixture.Read(t, text)
	p := plan.Make(a)
	return Make(p, a), p, a
}

func demoOrder(t testing.TB, name string) (Order, plan.Plan, house.Answered) {
	t.Helper()
	return made(t, demo.Text(name))
}

// wall is a house of one wall of fiberglass at 16 in.
func wall(keys ...string) string { return houseOf(place("wall", "exterior-wall", keys...)) }

func houseOf(places ...string) string {
	return "version = 1\ndrawings = false\nold = false\n[site]\nstate = \"VT\"\ncounty = \"Chittenden\"\n" + strings.Join(places, "")
}

func place(id, kind string, keys ...string) string {
	return fmt.Sprintf("[[place]]\nid = %q\nkind = %q\npin = \"fiberglass\"\n%s\n", id, kind, strings.Join(keys, "\n"))
}

type published struct {
	NetAreas []struct {
		ID          string
		LengthFt    float64 `json:"length_ft"`
		HeightFt    float64 `json:"height_ft"`
		Openings    []string
		GrossFt2    float64 `json:"gross_ft2"`
		OpeningsFt2 float64 `json:"openings_ft2"`
		NetFt2      float64 `json:"net_ft2"`
	} `json:"net_areas"`
	Bays []struct {
		ID        string
		LengthIn  float64   `json:"length_in"`
		SpacingIn float64   `json:"spacing_in"`
		ClearIn   []float64 `json:"clear_in"`
	}
	ByModule []struct {
		ID          string
		LengthFt    float64 `json:"length_ft"`
		HeightFt    float64 `json:"height_ft"`
		OpeningsFt2 float64 `json:"openings_ft2"`
		SpacingIn   float64 `json:"spacing_in"`
		Pieces      int
		WithSpare   int `json:"with_spare"`
	} `json:"by_module"`
	Coverage []struct {
		WidthIn  float64 `json:"width_in"`
		LengthIn float64 `json:"length_in"`
		Pieces   int
		Ft2      float64
	}
	Figures []struct {
		ID        string
		Low, High float64
	}
	Studs []struct {
		WallFt float64 `json:"wall_ft"`
		StudIn float64 `json:"stud_in"`
		BattIn float64 `json:"batt_in"`
	}
	CrawlFactor struct{ Low, High float64 } `json:"crawl_factor"`
}

func readPublished(t testing.TB) published {
	t.Helper()
	var out published
	fixture.Published(t, "order.json", &out)
	return out
}
