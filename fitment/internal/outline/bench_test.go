package outline

import "testing"

func BenchmarkCut100Parts(b *testing.B) {
	parts := chassis(100)
	b.ReportAllocs()
	points, cuts := 0, 0
	for b.Loop() {
		points, cuts = 0, 0
		for i := range parts {
			for _, poly := range Cut(&parts[i], 0) {
				points += len(poly)
				cuts++
			}
		}
	}
	b.ReportMetric(float64(points), "points")
	b.ReportMetric(float64(cuts), "polygons")
}

func BenchmarkSeen100Parts(b *testing.B) {
	parts := chassis(100)
	b.ReportAllocs()
	for b.Loop() {
		for i := range parts {
			Seen(&parts[i], Side)
		}
	}
}

func BenchmarkCutKind(b *testing.B) {
	names := []string{"point", "segment", "disc", "cylinder", "box", "hull", "arc"}
	parts := chassis(98)
	for k, name := range names {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for i := k; i < len(parts); i += len(names) {
					Cut(&parts[i], 0)
				}
			}
		})
	}
}
