package house

// Propose makes the places that the shape of the house calls for. Places that
// are already there are kept: only kinds that are missing are added, up to MaxPlaces. It
// returns the ids of the places it added.
func Propose(l *QuestionList, h *House) []string {
	a := Answered{List: l, House: h}
	have := map[string]bool{}
	for _, p := range h.Places {
		have[p.Kind] = true
	}
	var added []string
	add := func(kind, label string, set func(*Place)) {
		if have[kind] || len(h.Places) >= MaxPlaces {
			return
		}
		p := h.Add(kind)
		if label != "" {
			p.Answers.Set("label", Text(label))
		}
		if set != nil {
			set(p)
		}
		added = append(added, p.ID)
	}
	above, below := a.Text(Shape, nil, "above"), a.Text(Shape, nil, "below")
	if above == "attic" || above == "both" {
		add("attic", "", nil)
	}
	if above == "sloped" || above == "both" {
		add("sloped-ceiling", "", nil)
	}
	add("exterior-wall", "Exterior walls", nil)
	switch below {
	case "crawl-vented":
		add("crawl-space", "Floor over the crawl space", func(p *Place) { p.Answers.Set("vented", YesNo(true)) })
	case "crawl-closed":
		add("crawl-space", "Crawl space walls", func(p *Place) { p.Answers.Set("vented", YesNo(false)) })
	case "basement":
		add("basement-wall", "Basement walls", nil)
	case "basement-crawl":
		add("crawl-space", "Floor over the crawl space", func(p *Place) { p.Answers.Set("vented", YesNo(true)) })
		add("basement-wall", "Basement walls, with the one beside the crawl space", nil)
	}
	if below != "slab" {
		add("rim-joist", "", nil)
	}
	if v := a.Value(Shape, nil, "chimney"); v.Answer.Text != "none" {
		add("chimney", "", func(p *Place) { chimneyKind(p, v) })
	}
	return added
}

// chimneyKind passes on what the shape question told. Plastic is a kind of its
// own; brick and metal leave the exact kind open, because the clearance hangs
// on it.
func chimneyKind(p *Place, v Value) {
	if v.Answer.Text == "plastic" {
		p.Answers.Set("chimney", Text("plastic-vent"))
	}
}
