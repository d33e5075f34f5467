package catalog

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/csv"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"battwright/data"
	"battwright/rules/wetting"
)

// readStation reads a station file of the US National Renewable Energy
// Laboratory (TMY3, US government data), cut down to its columns t_c, td_c,
// ghi, dhi, dni, wind_ms, wdir, opq_tenths.
func readStation(t testing.TB, path string) []wetting.Hour {
	t.Helper()
	f, err := os.Open(path)
	require.NoError(t, err)
	defer f.Close()
	plain, err := gzip.NewReader(f)
	require.NoError(t, err)
	rows, err := csv.NewReader(plain).ReadAll()
	require.NoError(t, err)
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	hours := make([]wetting.Hour, 0, len(rows)-1)
	for _, row := range rows[1:] {
		v := func(name string) float64 {
			x, err := strconv.ParseFloat(row[at[name]], 64)
			require.NoError(t, err)
			return x
		}
		hours = append(hours, wetting.Hour{
			TempC: v("t_c"), DewC: v("td_c"), DiffuseWM2: v("dhi"), DirectWM2: v("dni"), WindMS: v("wind_ms"), Cloud: v("opq_tenths") / 10,
		})
	}
	return hours
}

// packHours is unpackHours the other way.
func packHours(t testing.TB, hours []wetting.Hour) []byte {
	t.Helper()
	require.Len(t, hours, hoursOfYear)
	var plain []byte
	for _, column := range hourColumns {
		last := int64(0)
		for i := range hours {
			count := int64(math.Round(*column.of(&hours[i]) / column.unit))
			plain = binary.AppendVarint(plain, count-last)
			last = count
		}
	}
	var out bytes.Buffer
	z, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	require.NoError(t, err)
	_, err = z.Write(plain)
	require.NoError(t, err)
	require.NoError(t, z.Close())
	return out.Bytes()
}

// With UPDATE=1 and HOURS naming a folder of station files called by the ids of
// climates.toml, the packed years are written anew.
func TestPackHours(t *testing.T) {
	folder := os.Getenv("HOURS")
	if os.Getenv("UPDATE") == "" || folder == "" {
		t.Skip("HOURS names no folder of station files")
	}
	stations, err := filepath.Glob(filepath.Join(folder, "*.csv.gz"))
	require.NoError(t, err)
	require.NotEmpty(t, stations)
	for _, path := range stations {
		id := strings.TrimSuffix(filepath.Base(path), ".csv.gz")
		to := filepath.Join("..", "..", "data", "hours", id+".gz")
		require.NoError(t, os.WriteFile(to, packHours(t, readStation(t, path)), 0o644))
	}
}

// The packed year is the source: sun to the nearest 5 W/m2, all else exactly.
// Two station files are kept whole to show it.
func TestHoursAreTheSource(t *testing.T) {
	c := loadBase(t)
	for _, id := range []string{"miami-fl", "chicago-il"} {
		source := readStation(t, filepath.Join("..", "..", "testdata", "published", "hours", id+".csv.gz"))
		w, err := c.Hours(climateOf(t, c, id))
		require.NoError(t, err)
		require.Len(t, source, hoursOfYear)
		for i := range source {
			for j, column := range hourColumns {
				const hair = 1e-9
				off := hair
				if column.unit == 5 {
					off = 2.5
				}
				require.InDelta(t, *column.of(&source[i]), *column.of(&w.Hours[i]), off, "%s hour %d column %d", id, i, j)
			}
		}
	}
}

// All the years agree with the monthly means of climates.toml and, of vapor, of
// climate-check.csv, which were worked out of the same station files apart from this.
func TestHoursAgreeWithTheMonths(t *testing.T) {
	c := loadBase(t)
	days := [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	vapor := map[string][]string{}
	for _, row := range checks(t, "climate-check.csv", "vapor") {
		vapor[row.a] = strings.Fields(row.value)
	}
	found := 0
	for _, at := range c.Climates() {
		w, err := c.Hours(at)
		if at.Country != "US" {
			require.ErrorIs(t, err, ErrNoHours)
			continue
		}
		require.NoError(t, err)
		require.Len(t, vapor[at.ID], len(days), at.ID)
		found++
		hour := 0
		for m, n := range days {
			tC, pa, sun := 0.0, 0.0, 0.0
			for range n * 24 {
				h := &w.Hours[hour]
				tC += h.TempC / float64(n*24)
				pa += 610.94 * math.Exp(17.625*h.DewC/(243.04+h.DewC)) / float64(n*24) // Magnus, Alduchov and Eskridge 1996
				sun += h.DirectWM2 + h.DiffuseWM2
				hour++
			}
			require.InDelta(t, at.MeanC[m], tC, 0.06, "%s month %d", at.ID, m+1)
			want, err := strconv.ParseFloat(vapor[at.ID][m], 64)
			require.NoError(t, err)
			require.InEpsilon(t, want, pa, 0.01, "%s month %d", at.ID, m+1)
			if arctic := at.At.Lat > 66; !arctic {
				require.Positive(t, sun, "%s month %d", at.ID, m+1)
			}
		}
		_, err = w.Outside(wetting.Surface{AzimuthDeg: 180, TiltDeg: 90, Absorbs: 0.6, Emits: 0.9})
		require.NoError(t, err, at.ID)
	}
	require.Equal(t, 57, found)
}

// What is packed wrongly is told, not guessed.
func TestHoursThatAreBroken(t *testing.T) {
	whole := packHours(t, make([]wetting.Hour, hoursOfYear))
	_, err := unpackHours(bytes.NewReader(whole))
	require.NoError(t, err)
	for _, broken := range [][]byte{nil, []byte("no gzip"), whole[:len(whole)/2]} {
		_, err := unpackHours(bytes.NewReader(broken))
		require.Error(t, err)
	}
	var more bytes.Buffer
	z := gzip.NewWriter(&more)
	in, err := gzip.NewReader(bytes.NewReader(whole))
	require.NoError(t, err)
	_, err = io.Copy(z, in)
	require.NoError(t, err)
	_, err = z.Write([]byte{0})
	require.NoError(t, err)
	require.NoError(t, z.Close())
	_, err = unpackHours(&more)
	require.ErrorIs(t, err, ErrData)
}

func climateOf(t testing.TB, c *Catalog, id string) Climate {
	t.Helper()
	for _, at := range c.Climates() {
		if at.ID == id {
			return at
		}
	}
	t.Fatalf("no climate %s", id)
	return Climate{}
}

func loadBase(t testing.TB) *Catalog {
	t.Helper()
	c, err := Load(data.Files, nil)
	require.NoError(t, err)
	return c
}
