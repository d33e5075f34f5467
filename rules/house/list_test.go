package house_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/catalog"
	"battwright/rules/house"
)

var embedded = sync.OnceValues(func() (*catalog.Catalog, error) { return catalog.Load(data.Files, nil) })

// questions is the question list of the embedded data.
func questions(t testing.TB) *house.QuestionList {
	t.Helper()
	c, err := embedded()
	require.NoError(t, err)
	return house.NewList(c)
}
