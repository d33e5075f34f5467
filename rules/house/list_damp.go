package house

import (
	"battwright/rules/catalog"
	"battwright/rules/units"
)

// What the check of damp alone must know of a place. Nothing stands in for an answer
// that nobody gave: the check tries each usual one, and the worst counts. What may be
// answered, and where it matters, is data (damp-places.toml).

func dampQuestions(c *catalog.Catalog) []Question {
	kinds := func(is func(*catalog.PlaceKind) bool) []string {
		return append([]string{}, c.KindsLike(func(k catalog.PlaceKind) bool { return !k.Derived && (is(&k) || is(c.KindAt(k.Unvented))) })...)
	}
	hasBoard := func(k *catalog.PlaceKind) bool { return k.AsksOf("ci_r") || k.AsksOf("foam_r") }
	return []Question{
		{
			Key: "inside_cover", Kind: Choice, ForDamp: true, DontKnow: true, Options: coverOptions(c),
			Kinds: kinds(func(k *catalog.PlaceKind) bool { return c.AsksCover(k, true) }), Asked: askedCover,
			Prompt: "What will go on the drywall inside?", How: "Wallpaper, or vinyl of any sort, counts even on one wall of a room.",
		},
		{
			Key: "board_kind", Kind: Choice, ForDamp: true, DontKnow: true, Options: boardOptions(c),
			Kinds: kinds(hasBoard), Asked: saidBoard, Offers: offersBoard, Belied: boardBelied, BeliedBy: "the wall below ground: no such board goes on concrete behind a blanket",
			Prompt: "Of what is the board that is there?", How: "The name is printed on it. The color helps: see the list.",
		},
		{
			Key: "roof_pitch", Kind: NumberKind, Unit: units.Pitch, Min: 0, Max: 24, ForDamp: true, DontKnow: true, Kinds: kinds(c.UnderRoof),
			Prompt: "How steep is the roof above it?", How: "As on the drawings: 6/12 or 6:12. A flat roof: 0.",
		},
	}
}

func coverOptions(c *catalog.Catalog) []Option {
	var out []Option
	for _, x := range c.DampCovers {
		out = append(out, Option{x.ID, x.Name})
	}
	return out
}

func boardOptions(c *catalog.Catalog) []Option {
	var out []Option
	for _, x := range c.DampBoards {
		out = append(out, Option{x.ID, x.Name})
	}
	return out
}

// askedCover: drywall covers the place, and the rooms are kept so that what is on it
// can do harm.
func askedCover(a Answered, p *Place) bool {
	k := a.KindOf(p)
	visible := k.AsksExposed() && a.Bool(PlaceScope, p, "exposed")
	return !visible && a.List.catalog.AsksCover(k, a.Bool(Site, nil, "cooled"))
}

// saidBoard: a board is said to be there. What is still to be bought is of no kind yet.
func saidBoard(a Answered, p *Place) bool {
	key := "ci_r"
	if a.KindOf(p).Boundary == "soil" {
		key = "foam_r"
	}
	r, ok := said(p, key)
	return ok && r > 0 && a.Has(p, key)
}

func offersBoard(a Answered, p *Place, o Option) bool {
	return a.List.catalog.BoardGoes(a.KindOf(p), o.Value)
}

// boardBelied: the file names a board that goes outdoors alone.
func boardBelied(a Answered, p *Place) bool {
	return !offersBoard(a, p, Option{Value: p.Answers["board_kind"].Text})
}

// Told is what was answered to a question of a place: ok is false while nobody did,
// while it is not known, and where it is not asked.
func (a Answered) Told(p *Place, key string) (answer Answer, ok bool) {
	q := a.question(PlaceScope, key)
	if !a.Asked(*q, p) {
		return Answer{}, false
	}
	v := a.valueOf(q, p)
	return v.Answer, v.Source == FromAnswer
}
