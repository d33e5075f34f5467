// Package data carries what the trade knows: every figure with where it is
// from and how well it is known.
package data

import "embed"

// Files holds the data files.
//
//go:embed *.toml *.csv hours/*.gz
var Files embed.FS
