package main

import (
	"fmt"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
	"battwright/testdata/demo"
)

// demoOf is the demo house with so many places: its own again and again.
func demoOf(places int) (house.Answered, error) {
	c, err := catalog.Load(data.Files, nil)
	if err != nil {
		return house.Answered{}, err
	}
	l := house.NewList(c)
	h, err := house.Read(l, demo.Default, demo.Text(demo.Default))
	if err != nil {
		return house.Answered{}, err
	}
	own := h.Clone().Places
	h.Places = nil
	for i := range places {
		p := own[i%len(own)]
		p.ID = fmt.Sprintf("%s-%d", p.ID, i)
		p.Answers = p.Answers.Clone()
		h.Places = append(h.Places, p)
	}
	return house.Answered{List: l, House: h}, nil
}
