package scene

import (
	"strings"
	"testing"
)

// One of each thing that may differ, as people read it.
func TestDifferencesInWords(t *testing.T) {
	base := add(t, New(), "battery", Vec{600, 300, 200})
	base = set(t, base, "scene", "show", "mm")
	base = add(t, base, "air_tank", Vec{2000, 0, 300})
	now := base
	for _, e := range [][3]string{
		{"part:battery", "at_x", "1400"}, {"part:battery", "at_y", "250"}, {"part:battery", "case", "bci_27"},
		{"part:battery", "mass_kg", "21 kg"}, {"part:battery", "price", "180"}, {"part:battery", "state", "to_order"},
		{"part:left-frame-rail", "depth_mm", "120"}, {"part:left-frame-rail", "turn_z", "2"},
		{"vehicle", "rear/tyre", "245/45R17"}, {"vehicle", "wheelbase", "3000"}, {"vehicle", "front/suspension/kind", LeafSprings},
		{"scene", "height/aired_out/rear_mm", "-100"}, {"part:air-tank", "carrier", "body"},
	} {
		now = set(t, now, e[0], e[1], e[2])
	}
	edit := func(f func(*Document) (*Document, string, error)) { now, _ = edited(t, now, f) }
	edit(func(d *Document) (*Document, string, error) { return RemovePart(d, "air-tank") })
	edit(func(d *Document) (*Document, string, error) { return AddPart(d, "box", Vec{}) })
	edit(func(d *Document) (*Document, string, error) { return SetJoined(d, "box", "rear-axle", true, "") })
	edit(func(d *Document) (*Document, string, error) {
		return SetJoined(d, "driveshaft", "rear-axle", false, "")
	})
	var got []string
	for _, d := range Differences(base, now) {
		got = append(got, d.Name+": "+d.Text)
	}
	want := []string{
		"Wheelbase: 3000 in place of 2950",
		"Front suspension: " + strings.ToLower(SuspensionKindNamed(LeafSprings).Label) + " in place of plain vertical guide",
		"Rear tyre: 245/45R17 in place of 225/45R17",
		"Aired out: -90 front, -100 rear in place of -90 front, -90 rear",
		"Left frame rail: turned to roll 0°, pitch 0°, yaw 2°; depth 120 in place of 100",
		"Battery: 800 rearward, 50 to the left; case group 27 in place of group 34; mass 21 kg in place of unknown; price 180 in place of unknown; state: to order",
		"Air tank: left out",
		"Box: added",
		"Box and Rear axle: joined",
		"Rear axle and Driveshaft: not joined",
	}
	if a, b := strings.Join(got, "\n"), strings.Join(want, "\n"); a != b {
		t.Errorf("%s\n\nwant\n%s", a, b)
	}
	if d := Differences(base, base); d != nil {
		t.Error(d)
	}
}
