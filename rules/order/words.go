package order

import "strings"

// figures is what an error of the take-off says after its own name.
func figures(err error) string {
	if _, rest, ok := strings.Cut(err.Error(), ": "); ok {
		return rest
	}
	return err.Error()
}
