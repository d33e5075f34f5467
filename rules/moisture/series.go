package moisture

import "math"

// Months is the number of months in every series, January first.
const Months = 12

// DaysOfMonth are the month lengths of a common year.
var DaysOfMonth = [Months]float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// Series is a year of monthly means on one side of an assembly: temperature
// in C and vapour pressure in Pa. Capped marks the months in which the
// pressure was above what such a month can hold and was taken down.
type Series struct {
	TempC, Pa [Months]float64
	Capped    [Months]bool
}

// Month is what one month holds on both sides of an assembly.
type Month struct {
	OutC, OutPa float64 // outside: air, or soil below grade
	InC, InPa   float64 // the room
	Days        float64 // above 0 to 366
}

// maxPa keeps pressures physical: saturation at MaxTempC is about 70 kPa.
const maxPa = 1e5

// AirSeries takes monthly mean temperatures and vapour pressures of outdoor
// air and caps the pressure at saturation (over ice below 0 C): humidity is
// reported over water, so a frost month can come with more than it can hold.
// ErrTemperature, ErrPressure.
func AirSeries(tempC, pa [Months]float64) (Series, error) {
	s := Series{TempC: tempC, Pa: pa}
	for m := range Months {
		sat, err := SaturationPa(tempC[m])
		if err != nil {
			return Series{}, err
		}
		if !within(pa[m], 0, maxPa) {
			return Series{}, refuse(ErrPressure, "Pa", pa[m])
		}
		if pa[m] > sat {
			s.Pa[m], s.Capped[m] = sat, true
		}
	}
	return s, nil
}

// SoilMonths is the ground beside a wall as one more outside: a sinusoid of
// mean meanC and amplitude ampC (0 or more) that is lowest in coldestMonth
// (1 to 12, 2.5 being the turn from February to March: the deeper, the
// later), always saturated. ErrTemperature, ErrMonth.
func SoilMonths(meanC, ampC, coldestMonth float64) (Series, error) {
	if !within(coldestMonth, 0.5, Months+0.5) {
		return Series{}, refuse(ErrMonth, "coldest month", coldestMonth)
	}
	if !within(ampC, 0, MaxTempC) {
		return Series{}, refuse(ErrTemperature, "amplitude K", ampC)
	}
	var s Series
	for m := range Months {
		phase := 2 * math.Pi * (float64(m+1) - coldestMonth) / Months
		s.TempC[m] = meanC - ampC*math.Cos(phase)
		sat, err := SaturationPa(s.TempC[m])
		if err != nil {
			return Series{}, err
		}
		s.Pa[m] = sat
	}
	return s, nil
}

// Join puts a room and an outside together into the months Year works on.
func Join(inside, outside Series) [Months]Month {
	var months [Months]Month
	for m := range Months {
		months[m] = Month{
			OutC: outside.TempC[m], OutPa: outside.Pa[m],
			InC: inside.TempC[m], InPa: inside.Pa[m],
			Days: DaysOfMonth[m],
		}
	}
	return months
}
