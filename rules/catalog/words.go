package catalog

// FindWord is being written.
func (c *Catalog) FindWord(term string) (found []Word, near string) { return nil, "" }

// Terms is being written.
func (c *Catalog) Terms() []string { return nil }
