package strict

import (
	"cmp"
	"maps"
	"slices"
)

// Tree is a file that was read: its values and where each is written. The
// methods may be called on a nil Tree, which holds nothing.
type Tree struct {
	File string

	text   string
	ends   []int // offsets of the ends of lines
	values map[string]any
	root   *node
}

// Get gives the value at a path of string keys and int indices. Values are
// string, int64, float64, bool, time.Time, map[string]any, []any, and for
// [[tables]] []map[string]any. They belong to the tree: read them only.
func (t *Tree) Get(path ...any) (value any, ok bool) {
	if t == nil || t.values == nil {
		return nil, false
	}
	value = t.values
	for _, element := range path {
		if value, ok = stepValue(value, element); !ok {
			return nil, false
		}
	}
	return value, true
}

func stepValue(value, element any) (any, bool) {
	switch e := element.(type) {
	case string:
		table, isTable := value.(map[string]any)
		if !isTable {
			return nil, false
		}
		v, ok := table[e]
		return v, ok
	case int:
		switch list := value.(type) {
		case []any:
			if e >= 0 && e < len(list) {
				return list[e], true
			}
		case []map[string]any:
			if e >= 0 && e < len(list) {
				return list[e], true
			}
		}
	}
	return nil, false
}

// Line gives the line a path is written on, from 1. For a path that is not in
// the file it is the line of the nearest parent that is; 0 when that is the
// file itself.
func (t *Tree) Line(path ...any) int {
	if t == nil || t.values == nil {
		return 0
	}
	if n := t.node(path); n != t.root {
		return t.lineAt(n.at)
	}
	return 0
}

// node is where a path is written, or its nearest parent that is.
func (t *Tree) node(path []any) *node {
	n := t.root
	for _, element := range path {
		next := n.step(element)
		if next == nil {
			break
		}
		n = next
	}
	return n
}

// lineAt gives the line of an offset.
func (t *Tree) lineAt(at int) int {
	before, _ := slices.BinarySearch(t.ends, at)
	return before + 1
}

// Keys lists the keys of the table at a path in the order they are written;
// none when there is no table.
func (t *Tree) Keys(path ...any) []string {
	value, _ := t.Get(path...)
	if _, isTable := value.(map[string]any); !isTable {
		return nil
	}
	kids := t.node(path).kids
	return slices.SortedFunc(maps.Keys(kids), func(a, b string) int { return cmp.Compare(kids[a].at, kids[b].at) })
}

// HasComments reports whether the file holds a comment, which writing it anew
// would lose.
func (t *Tree) HasComments() bool {
	return t != nil && slices.ContainsFunc(tokensOf(t.text, 0), func(k token) bool { return k.text[0] == '#' })
}

// Problem is what is wrong at a path.
func (t *Tree) Problem(path []any, found, want string) Problem {
	return Problem{File: t.File, Line: t.Line(path...), Key: keyText(path), Found: found, Want: want}
}
