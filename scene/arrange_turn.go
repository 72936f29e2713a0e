package scene

import "math"

// mat is a rotation by rows.
type mat [3]Vec

func (m *mat) apply(v Vec) Vec { return Vec{m[0].dot(v), m[1].dot(v), m[2].dot(v)} }

func (m *mat) transposed() mat {
	return mat{{m[0][0], m[1][0], m[2][0]}, {m[0][1], m[1][1], m[2][1]}, {m[0][2], m[1][2], m[2][2]}}
}

// times is m·n: n first, then m.
func (m *mat) times(n *mat) (out mat) {
	t := n.transposed()
	for i := range out {
		out[i] = Vec{m[i].dot(t[0]), m[i].dot(t[1]), m[i].dot(t[2])}
	}
	return out
}

// sinCos is exact at quarter turns, so that a part turned by 90° stays square.
func sinCos(deg float64) (sin, cos float64) {
	switch math.Mod(math.Mod(deg, 360)+360, 360) {
	case 0:
		return 0, 1
	case 90:
		return 1, 0
	case 180:
		return 0, -1
	case 270:
		return -1, 0
	}
	return math.Sincos(radians(deg))
}

// about is the right-handed turn about a body axis.
func about(axis int, deg float64) mat {
	s, c := sinCos(deg)
	switch axis {
	case 0:
		return mat{{1, 0, 0}, {0, c, -s}, {0, s, c}}
	case 1:
		return mat{{c, 0, s}, {0, 1, 0}, {-s, 0, c}}
	}
	return mat{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}
}

// turnOf is the rotation of a part's TurnDeg: roll about X, then pitch about
// Y, then yaw about Z.
func turnOf(deg Vec) mat {
	x, y, z := about(0, deg[0]), about(1, deg[1]), about(2, deg[2])
	yx := y.times(&x)
	return z.times(&yx)
}

// degrees gives a rotation as roll, pitch and yaw, to a millionth of a degree.
// With the nose straight up or down roll and yaw turn about one line; roll is
// 0 then.
func (m *mat) degrees() Vec {
	sin := -m[2][0]
	var roll, pitch, yaw float64
	// cos of the pitch, free of the loss near ±90° that asin has.
	cos := math.Sqrt(float64(m[0][0]*m[0][0]) + float64(m[1][0]*m[1][0]))
	pitch = math.Atan2(sin, cos)
	if cos > 1e-9 {
		roll, yaw = math.Atan2(m[2][1], m[2][2]), math.Atan2(m[1][0], m[0][0])
	} else {
		yaw = math.Atan2(-m[0][1], m[1][1])
	}
	return Vec{round6(roll * 180 / math.Pi), round6(pitch * 180 / math.Pi), round6(yaw * 180 / math.Pi)}
}

// round6 keeps a length or an angle to a millionth, without minus zero.
func round6(v float64) float64 { return math.Round(v*1e6)/1e6 + 0 }

// turned is TurnDeg after a further turn about a body axis. About the axis of
// its only turn the two just add up, so that typed figures stay as they are.
func turned(was Vec, axis int, deg float64) Vec {
	others := was
	others[axis] = 0
	if others == (Vec{}) {
		sum := math.Mod(was[axis]+deg, 360)
		switch {
		case sum > 180:
			sum -= 360
		case sum <= -180:
			sum += 360
		}
		others[axis] = round6(sum)
		return others
	}
	a, b := about(axis, deg), turnOf(was)
	m := a.times(&b)
	return m.degrees()
}
