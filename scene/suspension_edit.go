package scene

import (
	"strconv"
	"strings"
)

// setSuspension changes what an end hangs on. A new kind begins with its
// template, and makes the wheels move by themselves or not as it asks.
func setSuspension(c *Document, e *End, steps []string, text string) (err error) {
	field := strings.Join(steps, "/")
	if len(steps) == 0 {
		return errNoField("suspension")
	}
	if steps[0] == "kind" && len(steps) == 1 {
		setSuspensionKind(&c.Vehicle, e, strings.TrimSpace(text))
		return nil
	}
	if e.Suspension == nil {
		return errNoField(field)
	}
	s := e.Suspension.clone()
	e.Suspension = s
	if steps[0] == "crank" && len(steps) == 1 {
		s.Crank = strings.TrimSpace(text)
		return nil
	}
	if steps[0] != "bars" || len(steps) < 3 {
		return errNoField(field)
	}
	i, bad := strconv.Atoi(steps[1])
	if bad != nil || i < 0 || i >= len(s.Bars) {
		return errNoField(field)
	}
	b := &s.Bars[i]
	if steps[2] == "name" && len(steps) == 3 {
		b.Name = strings.TrimSpace(text)
		return nil
	}
	if axis, ok := axisOf(steps[2:], "body"); ok {
		b.BodyMM[axis], err = ParseLength(text, c.Show)
		return err
	}
	if axis, ok := axisOf(steps[2:], "carried"); ok {
		b.CarriedMM[axis], err = ParseLength(text, c.Show)
		return err
	}
	return errNoField(field)
}

func setSuspensionKind(v *Vehicle, e *End, kind string) {
	if kind == e.Form().Name {
		return
	}
	k := SuspensionKindNamed(kind)
	if k == nil { // refused by the check that follows
		e.Suspension = &Suspension{Kind: kind}
		return
	}
	if k.Name == Guide {
		e.Suspension = nil
		return
	}
	e.Independent = k.Alone
	end := "rear"
	if e == &v.Front {
		end = "front"
	}
	e.Suspension = SuspensionTemplate(kind, v, end)
}

// setIndependent joins or parts an end's wheels; a suspension that is not for
// them goes.
func setIndependent(e *End, text string) (err error) {
	e.Independent, err = parseFlag(text)
	if k := e.Form(); k.Name != Guide && k.Alone != e.Independent {
		e.Suspension = nil
	}
	return err
}

// suspensionLabel names a place in a suspension: "Rear bar 3, body Y"; empty
// when it is none.
func suspensionLabel(steps []string) string {
	at := 0
	for at < len(steps) && steps[at] != "suspension" {
		at++
	}
	if at == 0 || at >= len(steps) {
		return ""
	}
	end, rest := strings.ToUpper(steps[at-1][:1])+steps[at-1][1:], steps[at+1:]
	if len(rest) < 2 || rest[0] != "bars" {
		return end + " suspension" + strings.TrimSuffix(" "+strings.Join(rest, " "), " ")
	}
	i, _ := strconv.Atoi(rest[1])
	label := end + " bar " + strconv.Itoa(i+1)
	if len(rest) < 3 {
		return label
	}
	label += ", " + strings.ReplaceAll(bare(rest[2]), "_", " ")
	if len(rest) > 3 {
		if axis, err := strconv.Atoi(rest[3]); err == nil && axis >= 0 && axis < 3 {
			label += " " + "XYZ"[axis:axis+1]
		}
	}
	return label
}
