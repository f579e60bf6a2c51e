package main

import (
	"strings"
	"testing"
)

func TestWorkshop(t *testing.T) {
	for _, c := range []struct {
		args []string
		code int
		says string // on either stream
	}{
		{[]string{"--board", "leg_stock=1 1/2 x 5 3/8", "--board", "slat_stock=1 x 5 7/16", "--kerf", `3/32"`, "--squared", `1/4"`}, exitReady, "no errors"},
		{[]string{"--have", `2x6 southern pine, ground contact, 50"`, "--have", `2 of 2x4 southern pine, ground contact, 8'`}, exitReady, "no errors"},
		{[]string{"--squared", "0"}, exitReady, "no errors"},
		{[]string{"--tape", "1/32"}, exitReady, "no errors"},
		{[]string{"--tape", "1/10"}, exitMisuse, `must be one of "1/16","1/32"`},
		{[]string{"--board", "leg_stock"}, exitMisuse, "--board: "},
		{[]string{"--board", "leg_stock=2 x 6"}, exitReady, "measured-off"},
		{[]string{"--board", "legs=1 1/2 x 5 3/8"}, exitErrors, "there is no lumber “legs”"},
		{[]string{"--kerf", "thin"}, exitMisuse, "--kerf: "},
		{[]string{"--kerf", "0"}, exitMisuse, "every blade takes some wood"},
		{[]string{"--kerf", "1"}, exitMisuse, "more than any blade takes"},
		{[]string{"--squared", "3"}, exitMisuse, "squaring an end"},
		{[]string{"--car", "12'"}, exitReady, "no errors"},
		{[]string{"--car", "6'"}, exitErrors, "no-short-boards"},
		{[]string{"--car", "long"}, exitMisuse, "--car: "},
		{[]string{"--car", `1/2"`}, exitMisuse, "shorter than any board"},
		{[]string{"--fewest-cuts", "--reserve", `3"`}, exitReady, "no errors"},
		{[]string{"--reserve", "3'"}, exitMisuse, "more than"},
		{[]string{"--have", `2x6, 50"`}, exitMisuse, "--have: "},
	} {
		code, out, errs := command(t, append([]string{"check", table}, c.args...)...)
		if code != c.code || !strings.Contains(out+errs, c.says) {
			t.Errorf("%v: exit %d\n%s%swant %d and %q", c.args, code, out, errs, c.code, c.says)
		}
	}
}
