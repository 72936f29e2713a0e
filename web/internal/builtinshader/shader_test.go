package builtinshader

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"text/template"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// original reads the text that a package variable of Ebiten's own file begins
// with.
func original(t *testing.T, variable string) string {
	t.Helper()
	dir, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}", "github.com/hajimehoshi/ebiten/v2").Output()
	require.NoError(t, err)
	name := filepath.Join(strings.TrimSpace(string(dir)), "internal", "builtinshader", "shader.go")
	file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
	require.NoError(t, err)
	object := file.Scope.Lookup(variable)
	require.NotNil(t, object, variable)
	var text string
	ast.Inspect(object.Decl.(*ast.ValueSpec), func(n ast.Node) bool {
		if lit, ok := n.(*ast.BasicLit); ok && strings.HasPrefix(lit.Value, "`") {
			text, err = strconv.Unquote(lit.Value)
			require.NoError(t, err)
		}
		return true
	})
	require.NotEmpty(t, text, variable)
	return text
}

// lines are the lines that say something: a template leaves empty ones behind.
func lines(s string) []string {
	var out []string
	for _, line := range strings.Split(s, "\n") {
		if strings.TrimSpace(line) != "" {
			out = append(out, line)
		}
	}
	return out
}

func TestTheShadersAreThoseOfTheLibrary(t *testing.T) {
	tmpl, err := template.New("shader").Parse(original(t, "tmpl"))
	require.NoError(t, err)
	for filter := Filter(0); filter < FilterCount; filter++ {
		for address := Address(0); address < AddressCount; address++ {
			for _, useColorM := range []bool{false, true} {
				t.Run(fmt.Sprint(filter, address, useColorM), func(t *testing.T) {
					var want strings.Builder
					require.NoError(t, tmpl.Execute(&want, map[string]any{
						"Filter": filter, "FilterNearest": FilterNearest, "FilterLinear": FilterLinear,
						"Address": address, "AddressUnsafe": AddressUnsafe,
						"AddressClampToZero": AddressClampToZero, "AddressRepeat": AddressRepeat,
						"UseColorM": useColorM,
					}))
					assert.Equal(t, lines(want.String()), lines(string(ShaderSource(filter, address, useColorM))))
				})
			}
		}
	}
}

func TestTheFixedShadersAreThoseOfTheLibrary(t *testing.T) {
	assert.Equal(t, original(t, "ScreenShaderSource"), string(ScreenShaderSource))
	assert.Equal(t, original(t, "ClearShaderSource"), string(ClearShaderSource))
	assert.Len(t, AppendShaderSources(nil), FilterCount*AddressCount*2+2)
}
