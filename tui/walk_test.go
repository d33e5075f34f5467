package tui

import (
	"testing"

	"battwright/rules/house"
)

// stop is one screen of the program and how a person gets there.
type stop struct {
	name string
	demo bool // begins with the demo house open, else at the start screen
	go_  func(*player)
}

// brokenFile has three mistakes, which must all be shown.
const brokenFile = `version = 1
stage = "half"

[shape]
length_ft = "long"

[[place]]
id = "a"
kind = "garden"
`

// stops are all screens; tests of size, colour and keys walk through them.
var stops = []stop{
	{"start", false, func(p *player) {}},
	{"house-choice", false, func(p *player) { p.press("1") }},
	{"house-yes-no", false, func(p *player) { p.press("1").ask("old") }},
	{"house-text", false, func(p *player) { p.press("1").ask("site.county").typed("Chitten") }},
	{"house-number", false, func(p *player) { p.press("1").ask("shape.length_ft").typed("38 ft 6 in") }},
	{"house-number-wrong", false, func(p *player) { p.press("1").ask("shape.length_ft").typed("3000").press("enter") }},
	{"house-help", false, func(p *player) { p.press("1").ask("shape.chimney").press("?") }},
	{"house-many", false, func(p *player) { p.press("2").ask("shape.others").press("down", "space") }},
	{"house-numbers", false, func(p *player) { p.press("2").ask("site.months").typed("1 2 three").press("enter") }},
	{"places", true, func(p *player) { p.press("g", "2") }},
	{"places-empty", false, func(p *player) { p.press("g", "2") }},
	{"places-delete", true, func(p *player) { p.press("g", "2", "down", "x") }},
	{"add-place", true, func(p *player) { p.press("g", "2", "a") }},
	{"place-form", true, func(p *player) { p.press("g", "2", "e") }},
	{"matters", true, func(p *player) { p.press("g", "3") }},
	{"matters-help", true, func(p *player) { p.press("g", "3", "enter", "enter", "?") }},
	{"matters-empty", false, func(p *player) { p.press("g", "3", "enter", "enter") }},
	{"look", true, func(p *player) {}},
	{"look-empty", false, func(p *player) { p.press("g", "4") }},
	{"place-result", true, func(p *player) { p.onPlace(2) }},
	{"place-why", true, func(p *player) { p.onPlace(2).press("w") }},
	{"place-picture", true, func(p *player) { p.onPlace(2).press("p") }},
	{"place-damp", true, func(p *player) { p.onPlace(2).press("d") }},
	{"place-how", true, func(p *player) { p.onPlace(2).press("h") }},
	{"place-matters", true, func(p *player) { p.onPlace(2).press("o") }},
	{"place-chimney", true, func(p *player) { p.onPlace(7) }},
	{"basement-damp", true, func(p *player) { p.onPlace(5).press("d") }},
	{"money", true, func(p *player) { p.press("n") }},
	{"ladder", true, func(p *player) { p.press("n", "ctrl+l") }},
	{"ladder-empty", false, func(p *player) { p.press("g", "5", "ctrl+l") }},
	{"would-change", true, func(p *player) { p.press("w") }},
	{"house-suggest", false, func(p *player) {
		p.press("1").ask("site.state").typed("VT").press("enter").ask("site.county").typed("ch")
	}},
	{"order", true, func(p *player) { p.press("g", "6") }},
	{"order-cut", true, func(p *player) { p.press("g", "6", "c") }},
	{"order-cut-place", true, func(p *player) { p.press("g", "6", "c", "3") }},
	{"order-cutting", true, func(p *player) { p.press("g", "6", "c", "9") }},
	{"order-ask", true, func(p *player) { p.press("g", "6", "a") }},
	{"order-prices", true, func(p *player) { p.press("g", "6", "p") }},
	{"order-label", true, func(p *player) { p.press("g", "6", "p", "1") }},
	{"order-price", true, func(p *player) { p.press("g", "6", "p", "1", "1").typed("sixty").press("enter") }},
	{"order-export", true, func(p *player) { p.press("g", "6", "x") }},
	{"order-empty", false, func(p *player) { p.press("g", "6") }},
	{"check", true, func(p *player) { p.press("g", "7") }},
	{"check-cautions", true, func(p *player) { p.press("g", "7", "1") }},
	{"check-sheets", true, func(p *player) { p.press("g", "7", "2") }},
	{"check-sheet", true, func(p *player) { p.press("g", "7", "2", "1") }},
	{"check-pages", true, func(p *player) { p.press("g", "7", "3") }},
	{"check-framer", true, func(p *player) { p.press("g", "7", "3", "2") }},
	{"check-offers", true, func(p *player) { p.press("g", "7", "4") }},
	{"check-walk", true, func(p *player) { p.press("g", "7", "5") }},
	{"check-walk-place", true, func(p *player) { p.press("g", "7", "5", "3") }},
	{"check-ready", true, func(p *player) { p.press("g", "7", "6") }},
	{"find-out", true, func(p *player) { p.press("f") }},
	{"find-out-empty", false, func(p *player) { p.press("g", "8") }},
	{"export", true, func(p *player) { p.press("x") }},
	{"export-name", true, func(p *player) { p.press("x", "3").typed("my-house") }},
	{"read-here", true, func(p *player) { p.press("x", "1") }},
	{"open-file", false, func(p *player) { p.press("4").typed("nowhere.toml").press("enter") }},
	{"open-problems", false, func(p *player) {
		p.store.Files["broken.toml"] = brokenFile
		p.press("4").typed("broken.toml").press("enter")
	}},
	{"saved-plans", true, func(p *player) { p.press("k") }},
	{"keep-plan", true, func(p *player) { p.press("k", "1").typed("quiet house") }},
	{"words", false, func(p *player) { p.press("/") }},
	{"words-found", false, func(p *player) { p.press("/").typed("craft") }},
	{"go-to", true, func(p *player) { p.press("g") }},
	{"save-as", true, func(p *player) { p.press("s").typed("my-house") }},
	{"leave", true, func(p *player) {
		p.press("s").typed("my-house").press("enter")
		p.press("m", "enter", "5", "q")
	}},
	{"start-go-on", true, func(p *player) { p.press("g", "up", "up", "up", "up", "enter") }},
}

// onPlace opens the page of the n-th place from the first look.
func (p *player) onPlace(n int) *player {
	for range n {
		p.press("down")
	}
	return p.press("enter")
}

// at walks to a stop.
func at(t testing.TB, s stop, c Config, width, height int) *player {
	t.Helper()
	if s.demo {
		c.House = demoHouse(t)
	} else {
		c.House = (*house.House)(nil)
	}
	p := newPlayer(t, c, width, height)
	s.go_(p)
	return p
}
