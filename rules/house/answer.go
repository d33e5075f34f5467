// Package house holds what the builder said: the house, its places, the
// priorities and the saved plans, and the one list of questions that every
// front end asks and every file is read by.
package house

import (
	"slices"
	"strconv"
	"strings"
)

// State says whether there is an answer.
type State int

// The states of an answer. Absent is the zero value: nobody was asked yet.
const (
	Absent State = iota
	Unknown
	Given
)

// Answer is one answer to one question. Which field counts is ruled by the
// question's Kind.
type Answer struct {
	State  State
	Text   string
	Number float64
	Bool   bool
	List   []string
}

// Text, Number, YesNo and List make given answers; DontKnow is "don't know".
func Text(s string) Answer      { return Answer{State: Given, Text: s} }
func Number(v float64) Answer   { return Answer{State: Given, Number: v} }
func YesNo(b bool) Answer       { return Answer{State: Given, Bool: b} }
func List(ids ...string) Answer { return Answer{State: Given, List: slices.Clone(ids)} }
func DontKnow() Answer          { return Answer{State: Unknown} }

// Equal compares answers by what they say.
func (a Answer) Equal(b Answer) bool {
	return a.State == b.State && a.Text == b.Text && a.Number == b.Number && a.Bool == b.Bool && slices.Equal(a.List, b.List)
}

// Answers are the answers of one house or one place by question key.
type Answers map[string]Answer

// Clone copies the map and the lists in it.
func (a Answers) Clone() Answers {
	out := make(Answers, len(a))
	for k, v := range a {
		v.List = slices.Clone(v.List)
		out[k] = v
	}
	return out
}

// Set stores an answer; an Absent one removes the key.
func (a Answers) Set(key string, v Answer) {
	if v.State == Absent {
		delete(a, key)
		return
	}
	a[key] = v
}

func formatNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// unique drops what is named a second time.
func unique(ids []string) []string {
	var out []string
	for _, id := range ids {
		if !slices.Contains(out, id) {
			out = append(out, id)
		}
	}
	return out
}

func joinList(ids []string) string { return strings.Join(ids, ", ") }
