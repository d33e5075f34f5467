package catalog

import (
	"bufio"
	"compress/gzip"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"battwright/rules/wetting"
)

// ErrNoHours marks a listed place of which no hourly year is known.
var ErrNoHours = errors.New("no hourly year")

// The hourly years lie in hours/ID.gz below the data, one for each listed place
// in the US: the typical year of the same station as in climates.toml (source
// tmy3: station files of the US National Renewable Energy Laboratory, US
// government data). Sun is rounded to 5 W/m2; all else is as it was. Gunzipped
// a file is six columns, one after the other, of hoursOfYear numbers each from
// the first of January on. A number is the difference from the one before it
// (the first from 0) as a signed varint of encoding/binary.
const hoursOfYear = 8760

// hourColumns are the columns and what one count of each is.
var hourColumns = [...]struct {
	of   func(*wetting.Hour) *float64
	unit float64
}{
	{func(h *wetting.Hour) *float64 { return &h.TempC }, 0.1},
	{func(h *wetting.Hour) *float64 { return &h.DewC }, 0.1},
	{func(h *wetting.Hour) *float64 { return &h.DiffuseWM2 }, 5},
	{func(h *wetting.Hour) *float64 { return &h.DirectWM2 }, 5},
	{func(h *wetting.Hour) *float64 { return &h.WindMS }, 0.1},
	{func(h *wetting.Hour) *float64 { return &h.Cloud }, 0.1},
}

// Hours reads the hourly typical year of a listed place. ErrNoHours when there
// is none: outside the US no sun is known.
func (c *Catalog) Hours(at Climate) (wetting.Weather, error) {
	w := wetting.Weather{LatDeg: at.At.Lat, LonDeg: at.At.Lon, ZoneH: at.ZoneH}
	f, err := c.files.Open("hours/" + at.ID + ".gz")
	if errors.Is(err, fs.ErrNotExist) || errors.Is(err, fs.ErrInvalid) {
		return w, fmt.Errorf("%w of %s", ErrNoHours, at.ID)
	}
	if err != nil {
		return w, err
	}
	defer f.Close()
	w.Hours, err = unpackHours(f)
	return w, named("hours/"+at.ID+".gz", err)
}

func unpackHours(packed io.Reader) ([]wetting.Hour, error) {
	plain, err := gzip.NewReader(packed)
	if err != nil {
		return nil, err
	}
	in := bufio.NewReader(plain)
	hours := make([]wetting.Hour, hoursOfYear)
	for _, column := range hourColumns {
		count := int64(0)
		for i := range hours {
			step, err := binary.ReadVarint(in)
			if err != nil {
				return nil, fmt.Errorf("%w: hour %d: %w", ErrData, i, err)
			}
			count += step
			*column.of(&hours[i]) = float64(count) * column.unit
		}
	}
	if _, err := in.ReadByte(); !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%w: more than six columns of %d hours", ErrData, hoursOfYear)
	}
	return hours, nil
}
