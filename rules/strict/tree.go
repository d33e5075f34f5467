package strict

import (
	"cmp"
	"slices"
)

// Tree is a file that was read: its values and where each is written. The
// methods may be called on a nil Tree, which holds nothing.
type Tree struct {
	File string

	values   map[string]any
	lines    *node
	comments bool
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
	if t == nil || t.lines == nil {
		return 0
	}
	n := t.lines
	for _, element := range path {
		next := n.step(element)
		if next == nil {
			break
		}
		n = next
	}
	return n.line
}

// Keys lists the keys of the table at a path in the order they are written;
// none when there is no table.
func (t *Tree) Keys(path ...any) []string {
	value, _ := t.Get(path...)
	table, ok := value.(map[string]any)
	if !ok {
		return nil
	}
	at := t.lines
	for _, element := range path {
		if at = at.step(element); at == nil {
			at = &node{}
		}
	}
	keys := make([]string, 0, len(table))
	for k := range table {
		keys = append(keys, k)
	}
	place := func(k string) (line, order int) {
		if n := at.kids[k]; n != nil {
			return n.line, n.order
		}
		return 0, 0
	}
	slices.SortFunc(keys, func(a, b string) int {
		aLine, aOrder := place(a)
		bLine, bOrder := place(b)
		return cmp.Or(cmp.Compare(aLine, bLine), cmp.Compare(aOrder, bOrder), cmp.Compare(a, b))
	})
	return keys
}

// HasComments reports whether the file holds a comment, which writing it anew
// would lose.
func (t *Tree) HasComments() bool { return t != nil && t.comments }

// Lines answers where a key of a decoded file is written, for checks that only
// the caller can make. The zero Lines knows no line.
type Lines struct{ tree *Tree }

// Of is Tree.Line.
func (l Lines) Of(path ...any) int { return l.tree.Line(path...) }

// problem starts a Problem about a path.
func (t *Tree) problem(path []any, found, want string) Problem {
	return Problem{File: t.File, Line: t.Line(path...), Key: keyText(path), Found: found, Want: want}
}
