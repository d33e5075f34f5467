package strict

// node remembers where one key or one element of a list stands in the text.
// The nodes form the same tree as the values.
type node struct {
	parent *node
	name   string // key below a table
	index  int    // place in a list, when inList
	inList bool

	at    int // offset in the text; a table's own [line] wins over a mention
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
func (n *node) kid(p part) *node {
	if k := n.kids[p.name]; k != nil {
		return k
	}
	if n.kids == nil {
		n.kids = map[string]*node{}
	}
	k := &node{parent: n, name: p.name, at: p.at, depth: n.depth + 1}
	n.kids[p.name] = k
	return k
}

func (n *node) item(at int) *node {
	k := &node{parent: n, index: len(n.items), inList: true, at: at, depth: n.depth + 1}
	n.items = append(n.items, k)
	return k
}

// apart makes a node for what is written under a name that is taken, so that
// it does not mix with what is there.
func (n *node) apart(at int) *node {
	return &node{parent: n.parent, name: n.name, at: at, depth: n.depth}
}
