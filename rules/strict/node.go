package strict

// node remembers where one key or one element of a list stands in the text.
// The nodes form the same tree as the values.
type node struct {
	parent *node
	name   string // key below a table
	index  int    // place in a list, when inList
	inList bool

	line  int // where it is written; a table's own [line] wins over a mention
	order int // breaks ties of keys on one line
	depth int // keys and indices from the root

	fixed bool // given by key = value, which nothing may add to

	kids  map[string]*node
	items []*node
}

func (n *node) path() []any {
	if n == nil || n.parent == nil {
		return nil
	}
	if n.inList {
		return append(n.parent.path(), n.index)
	}
	return append(n.parent.path(), n.name)
}

// step goes to what a path element names, nil if there is no such thing.
func (n *node) step(element any) *node {
	switch e := element.(type) {
	case string:
		return n.kids[e]
	case int:
		if e >= 0 && e < len(n.items) {
			return n.items[e]
		}
	}
	return nil
}

// current is the table that a name means while a file is read: of a list of
// tables the one opened last.
func (n *node) current() *node {
	if len(n.items) > 0 {
		return n.items[len(n.items)-1]
	}
	return n
}

// kid gives the node of a key, made if it was not there.
func (s *scanner) kid(parent *node, name string, line int) *node {
	if k := parent.kids[name]; k != nil {
		return k
	}
	if parent.kids == nil {
		parent.kids = map[string]*node{}
	}
	s.order++
	k := &node{parent: parent, name: name, line: line, order: s.order, depth: parent.depth + 1}
	parent.kids[name] = k
	return k
}

func (s *scanner) item(list *node, line int) *node {
	s.order++
	n := &node{parent: list, index: len(list.items), inList: true, line: line, order: s.order, depth: list.depth + 1}
	list.items = append(list.items, n)
	return n
}
