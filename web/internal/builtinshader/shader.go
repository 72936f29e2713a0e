// Copyright 2022 The Ebitengine Authors
//
// Licensed under the Apache License, Version 2.0 (the "License");
// you may not use this file except in compliance with the License.
// You may obtain a copy of the License at
//
//     http://www.apache.org/licenses/LICENSE-2.0
//
// Unless required by applicable law or agreed to in writing, software
// distributed under the License is distributed on an "AS IS" BASIS,
// WITHOUT WARRANTIES OR CONDITIONS OF ANY KIND, either express or implied.
// See the License for the specific language governing permissions and
// limitations under the License.

// Package builtinshader is Ebiten 2.8.8's package of that name, changed to put
// its shaders together without text/template, which looks methods up by name:
// one program with it keeps every exported method it could reach, a fifth of
// the sketcher. The sketcher's build puts this file in the other's place
// (package web, lean.go); the test holds the two to the same shaders.
package builtinshader

import (
	"strings"
	"sync"
)

// Filter is how a texture is sampled between its pixels.
type Filter int

const (
	FilterNearest Filter = iota
	FilterLinear
)

const FilterCount = 2

// Address is what a texture has outside its bounds.
type Address int

const (
	AddressUnsafe Address = iota
	AddressClampToZero
	AddressRepeat
)

const AddressCount = 3

// The names of the colour matrix in the shaders that have one.
const (
	UniformColorMBody        = "ColorMBody"
	UniformColorMTranslation = "ColorMTranslation"
)

var (
	shaders  [FilterCount][AddressCount][2][]byte
	shadersM sync.Mutex
)

// ShaderSource is the shader of a filter and an address mode, in Kage. Every
// call with the same arguments returns the same slice.
func ShaderSource(filter Filter, address Address, useColorM bool) []byte {
	shadersM.Lock()
	defer shadersM.Unlock()

	var c int
	if useColorM {
		c = 1
	}
	s := &shaders[filter][address][c]
	if *s == nil {
		*s = []byte(compose(filter, address, useColorM))
	}
	return *s
}

func compose(filter Filter, address Address, useColorM bool) string {
	var b strings.Builder
	b.WriteString(head)
	if useColorM {
		b.WriteString(colorMUniforms)
	}
	if address == AddressRepeat {
		b.WriteString(repeatFunc)
	}
	b.WriteString(fragment)
	at := "imageSrc0At"
	if address == AddressUnsafe {
		at = "imageSrc0UnsafeAt"
	}
	if filter == FilterNearest {
		pos := "srcPos"
		if address == AddressRepeat {
			pos = "adjustTexelForAddressRepeat(srcPos)"
		}
		b.WriteString("\tclr := " + at + "(" + pos + ")\n")
	} else {
		b.WriteString(corners)
		if address == AddressRepeat {
			b.WriteString(repeatCorners)
		}
		b.WriteString(strings.ReplaceAll(mixCorners, "AT", at))
	}
	if useColorM {
		b.WriteString(colorM)
	} else {
		b.WriteString(colorScale)
	}
	b.WriteString(tail)
	return b.String()
}

// The pieces of a shader, in their order.
const (
	head = `//kage:unit pixels

package main
`
	colorMUniforms = `
var ColorMBody mat4
var ColorMTranslation vec4
`
	repeatFunc = `
func adjustTexelForAddressRepeat(p vec2) vec2 {
	origin := imageSrc0Origin()
	size := imageSrc0Size()
	return mod(p - origin, size) + origin
}
`
	fragment = `
func Fragment(dstPos vec4, srcPos vec2, color vec4) vec4 {
`
	corners = `	p0 := srcPos - 1/2.0
	p1 := srcPos + 1/2.0
`
	repeatCorners = `	p0 = adjustTexelForAddressRepeat(p0)
	p1 = adjustTexelForAddressRepeat(p1)
`
	mixCorners = `	c0 := AT(p0)
	c1 := AT(vec2(p1.x, p0.y))
	c2 := AT(vec2(p0.x, p1.y))
	c3 := AT(p1)
	rate := fract(p1)
	clr := mix(mix(c0, c1, rate.x), mix(c2, c3, rate.x), rate.y)
`
	colorM = `	// Un-premultiply alpha.
	// When the alpha is 0, 1-sign(alpha) is 1.0, which means division does nothing.
	clr.rgb /= clr.a + (1-sign(clr.a))
	// Apply the clr matrix.
	clr = (ColorMBody * clr) + ColorMTranslation
	// Premultiply alpha
	clr.rgb *= clr.a
	// Apply the color scale.
	clr *= color
	// Clamp the output.
	clr.rgb = min(clr.rgb, clr.a)
`
	colorScale = `	// Apply the color scale.
	clr *= color
`
	tail = `	return clr
}
`
)

// ScreenShaderSource draws the finished picture onto the canvas.
var ScreenShaderSource = []byte(`//kage:unit pixels

package main

func Fragment(dstPos vec4, srcPos vec2) vec4 {
	// Blend source colors in a square region, which size is 1/scale.
	scale := imageDstSize()/imageSrc0Size()
	pos := srcPos
	p0 := pos - 1/2.0/scale
	p1 := pos + 1/2.0/scale

	// Texels must be in the source rect, so it is not necessary to check.
	c0 := imageSrc0UnsafeAt(p0)
	c1 := imageSrc0UnsafeAt(vec2(p1.x, p0.y))
	c2 := imageSrc0UnsafeAt(vec2(p0.x, p1.y))
	c3 := imageSrc0UnsafeAt(p1)

	// p is the p1 value in one pixel assuming that the pixel's upper-left is (0, 0) and the lower-right is (1, 1).
	rate := clamp(fract(p1)*scale, 0, 1)
	return mix(mix(c0, c1, rate.x), mix(c2, c3, rate.x), rate.y)
}
`)

// ClearShaderSource clears a region.
var ClearShaderSource = []byte(`//kage:unit pixels

package main

func Fragment() vec4 {
	return vec4(0)
}
`)

// AppendShaderSources appends every shader of the package.
func AppendShaderSources(sources [][]byte) [][]byte {
	for filter := Filter(0); filter < FilterCount; filter++ {
		for address := Address(0); address < AddressCount; address++ {
			sources = append(sources, ShaderSource(filter, address, false), ShaderSource(filter, address, true))
		}
	}
	return append(sources, ScreenShaderSource, ClearShaderSource)
}
