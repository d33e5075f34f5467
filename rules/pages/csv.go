package pages

import (
	"encoding/csv"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"battwright/rules/inspect"
	"battwright/rules/plan"
	"battwright/rules/strict"
)

// CSV writes one row per place and material. A cell that a spreadsheet would
// take for a formula gets a quote mark in front.
func CSV(p plan.Plan, o Options) (string, error) {
	rows := [][]string{{"place", "kind", "area_ft2", "rank", "material", "fits", "product", "bag_r", "delivered_r", "finished_r", "low_usd", "typical_usd", "high_usd", "score", "chosen"}}
	for _, place := range p.Places {
		for _, e := range place.Entries {
			row := csvRow(place, e, o)
			if place.Choice != nil && len(p.First()) > 0 && len(place.Asks()) == 0 { // of the whole house
				row[5] = plan.AskHead + row[5]
			}
			rows = append(rows, row)
		}
	}
	return csvText(rows)
}

// csvText writes rows with every cell made harmless.
func csvText(rows [][]string) (string, error) {
	var b strings.Builder
	w := csv.NewWriter(&b)
	for _, r := range rows {
		for i := range r {
			r[i] = csvCell(r[i])
		}
		if err := w.Write(r); err != nil {
			return "", err
		}
	}
	w.Flush()
	return b.String(), w.Error()
}

func csvRow(p plan.Place, e plan.Entry, o Options) []string {
	fit, _ := FitWord(e, nil, 0, o.System)
	row := []string{p.Surface.Label, p.Surface.Asked, fmt.Sprintf("%.1f", p.Surface.AreaFt2), "", e.Name, fit}
	none := []string{"", "", "", "", "", "", "", "", "no"}
	switch {
	case p.Stopped():
		row[5] = "STOP"
		return append(row, none...)
	case !e.Usable():
		return append(row, none...)
	}
	row[3] = fmt.Sprint(e.Rank)
	if p.Surface.Held() != "" {
		row[5] = notYet
		return append(row, none...)
	}
	if board := inspect.PartToBuy(p, o.System); board != "" {
		row[5] += " with " + board + " to buy"
	}
	if p.Surface.Kind.BesideChimney {
		row[5] = "KEEP THE GAP EMPTY: " + row[5]
	}
	if len(p.Settles()) > 0 {
		row[5] = plan.SettleHead + row[5]
	}
	if len(p.Asks()) > 0 {
		row[5] = plan.AskHead + row[5]
	}
	chosen := "no"
	if takes(p, e) {
		chosen = "yes"
	}
	m := p.CostOf(&e.Assessed).Total
	return append(row, ProductText(e.Assessed, o.System), fmt.Sprintf("%g", e.NominalR), fmt.Sprintf("%.1f", e.Heat.DeliveredR), fmt.Sprintf("%.1f", e.Heat.AssemblyR),
		fmt.Sprintf("%.2f", m.Low.Dollars()), fmt.Sprintf("%.2f", m.Typical.Dollars()), fmt.Sprintf("%.2f", m.High.Dollars()), fmt.Sprintf("%.1f", e.Score), chosen)
}

func csvCell(s string) string {
	s, _ = strict.CleanText(s)
	// The wide forms count too: a spreadsheet set to East Asian text narrows them.
	first, _ := utf8.DecodeRuneInString(strings.TrimLeftFunc(s, unicode.IsSpace))
	if strings.ContainsRune("=+-@＝＋－＠﹦﹢﹣﹫", first) {
		return "'" + s
	}
	return s
}
