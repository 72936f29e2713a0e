// Asks the Flexible Collision Library (FCL 0.7.0) for distances, so that the
// gap engine can be held against something written by others. Lengths are
// millimetres. README.md says how to build it and what may be asked.
//
//   fcl distances < PAIRS           one line a pair
//   fcl time ROUNDS MS < PAIRS      nanoseconds a pair, by group
//   fcl sample ROUNDS < SCENE       nanoseconds for a whole sampled travel
//
// A solid is one line's worth of numbers:
//
//   KIND ROUND HX HY HZ COUNT x y z ... R (9, by rows) P (3)
//
// KIND 0 ball, 1 capsule along X, 2 disc, 3 cylinder, both about Z, 4 box,
// 5 hull of COUNT points; sizes are half lengths. ROUND is meant for balls and
// capsules only: the other kinds are measured without it.

#include <fcl/fcl.h>
#include <sys/resource.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <iostream>
#include <memory>
#include <set>
#include <string>
#include <utility>
#include <vector>

using Vec = fcl::Vector3d;
using Pose = fcl::Transform3d;
using Shape = std::shared_ptr<fcl::CollisionGeometryd>;
using Clock = std::chrono::steady_clock;

namespace {

// discHalf is half the thickness of the cylinder that stands for a disc, which
// the library does not have. It is a tenth of what two answers may differ by.
const double discHalf = 1e-3;

struct Solid {
  int kind;
  Shape shape;
  Pose pose;
};

struct Pair {
  Solid a, b;
};

// Numbers takes one number after the other from a text.
struct Numbers {
  const char* at;
  bool bad = false;
  double next() {
    char* end;
    double v = std::strtod(at, &end);
    bad = bad || end == at;
    at = end;
    return v;
  }
  bool more() {
    at += std::strspn(at, " \t\r\n");
    return *at != 0;
  }
};

Shape makeShape(int kind, double round, const Vec& h, const std::vector<Vec>& points) {
  switch (kind) {
    case 0: return std::make_shared<fcl::Sphered>(round);
    case 1: return std::make_shared<fcl::Capsuled>(round, 2 * h[0]);
    case 2: return std::make_shared<fcl::Cylinderd>(h[0], 2 * discHalf);
    case 3: return std::make_shared<fcl::Cylinderd>(h[0], 2 * h[2]);
    case 4: return std::make_shared<fcl::Boxd>(2 * h[0], 2 * h[1], 2 * h[2]);
    case 5: // without faces the library looks through all points, as it does below 33 anyway
      return std::make_shared<fcl::Convexd>(std::make_shared<const std::vector<Vec>>(points), 0,
                                            std::make_shared<const std::vector<int>>());
  }
  return nullptr;
}

Pose readPose(Numbers& in, int kind) {
  fcl::Matrix3d r;
  for (int i = 0; i < 9; i++) r(i / 3, i % 3) = in.next();
  Vec p;
  for (int i = 0; i < 3; i++) p[i] = in.next();
  if (kind == 1) {  // the library's capsules lie along Z
    fcl::Matrix3d zToX;
    zToX << 0, 0, 1, 1, 0, 0, 0, 1, 0;
    r = r * zToX;
  }
  Pose pose = Pose::Identity();
  pose.linear() = r;
  pose.translation() = p;
  return pose;
}

bool readSolid(Numbers& in, Solid& s, bool posed) {
  s.kind = int(in.next());
  double round = in.next();
  Vec h;
  for (int i = 0; i < 3; i++) h[i] = in.next();
  int count = int(in.next());
  if (in.bad || count < 0 || count > 1000) return false;
  std::vector<Vec> points(count);
  for (auto& p : points)
    for (int i = 0; i < 3; i++) p[i] = in.next();
  s.shape = makeShape(s.kind, round, h, points);
  s.pose = posed ? readPose(in, s.kind) : Pose::Identity();
  return s.shape && !in.bad;
}

bool readPair(const std::string& line, Pair& p) {
  Numbers in{line.c_str()};
  return readSolid(in, p.a, true) && readSolid(in, p.b, true) && !in.more();
}

fcl::DistanceResultd measure(const Pair& p, double tolerance, bool isSigned) {
  fcl::DistanceRequestd ask(true, isSigned, 0, 0, tolerance);
  fcl::DistanceResultd got;
  fcl::distance(p.a.shape.get(), p.a.pose, p.b.shape.get(), p.b.pose, ask, got);
  return got;
}

int fail(const char* what, long line) {
  std::fprintf(stderr, "fcl: %s at line %ld\n", what, line);
  return 2;
}

// distances prints the signed distance and the two points of each pair. What
// overlaps is asked once more for its depth: in that the library may assert and
// end the process, so that each line is out before the next pair is tried.
int distances() {
  std::string line;
  for (long n = 0; std::getline(std::cin, line); n++) {
    Pair p;
    if (!readPair(line, p)) return fail("not a pair", n);
    auto got = measure(p, 1e-9, false);
    if (got.min_distance <= 0) got = measure(p, 1e-9, true);
    const Vec &a = got.nearest_points[0], &b = got.nearest_points[1];
    std::printf("%.17g %.17g %.17g %.17g %.17g %.17g %.17g\n", got.min_distance, a[0], a[1], a[2], b[0], b[1], b[2]);
    std::fflush(stdout);
  }
  return 0;
}

double nanos(Clock::time_point from) {
  return double(std::chrono::duration_cast<std::chrono::nanoseconds>(Clock::now() - from).count());
}

// timeGroup measures one group over and over: each round goes through all its
// pairs as often as the given milliseconds take, at the library's default
// tolerance, which is looser and so faster than the one for comparing.
void timeGroup(const std::string& name, const std::vector<Pair>& pairs, int rounds, double ms) {
  if (pairs.empty()) return;
  double sum = 0;
  auto pass = [&] {
    for (const auto& p : pairs) sum += measure(p, 1e-6, false).min_distance;
  };
  auto start = Clock::now();
  pass();
  int times = 1 + int(ms * 1e6 / nanos(start));
  double mean = sum / double(pairs.size());
  std::printf("%s %.17g", name.c_str(), mean);
  for (int r = 0; r < rounds; r++) {
    start = Clock::now();
    for (int i = 0; i < times; i++) pass();
    std::printf(" %.6g", nanos(start) / times / double(pairs.size()));
  }
  std::printf("\n");
}

// timeGroups reads groups of pairs, each after a line "# name".
int timeGroups(int rounds, double ms) {
  std::string line, name;
  std::vector<Pair> pairs;
  for (long n = 0; std::getline(std::cin, line); n++) {
    if (line.compare(0, 2, "# ") == 0) {
      timeGroup(name, pairs, rounds, ms);
      pairs.clear();
      name = line.substr(2);
      continue;
    }
    pairs.emplace_back();
    if (!readPair(line, pairs.back())) return fail("not a pair", n);
  }
  timeGroup(name, pairs, rounds, ms);
  return 0;
}

// Object is one solid of a part, with a box as close about it as the library
// makes one: its own boxes of turned objects are those of a ball. The box is
// grown by half of the largest need, so that boxes that touch may be tight.
struct Object : fcl::CollisionObjectd {
  Object(const Solid& s, int part_) : fcl::CollisionObjectd(s.shape), kind(s.kind), part(part_) {}
  void stand(const Pose& pose, double grow) {
    setTransform(pose);
    fcl::AABBd box;
    const auto* g = collisionGeometry().get();
    switch (kind) {
      case 0: fcl::computeBV(static_cast<const fcl::Sphered&>(*g), pose, box); break;
      case 1: fcl::computeBV(static_cast<const fcl::Capsuled&>(*g), pose, box); break;
      case 2:
      case 3: fcl::computeBV(static_cast<const fcl::Cylinderd&>(*g), pose, box); break;
      case 4: fcl::computeBV(static_cast<const fcl::Boxd&>(*g), pose, box); break;
      default: fcl::computeBV(static_cast<const fcl::Convexd&>(*g), pose, box);
    }
    box.expand(Vec(grow, grow, grow));
    aabb = box;
  }
  int kind, part;
};

struct Scene {
  double need = 0;
  std::set<std::pair<int, int>> joined;
  std::vector<std::unique_ptr<Object>> objects;
  std::vector<std::vector<Pose>> heights;  // of every object
};

// readScene reads: NEED, JOINED and as many pairs of parts, OBJECTS and for
// each its part and solid without a pose, HEIGHTS and for each a pose of every
// object.
bool readScene(Numbers& in, Scene& s) {
  s.need = in.next();
  for (int i = int(in.next()); i > 0; i--) {
    int a = int(in.next()), b = int(in.next());
    s.joined.insert({std::min(a, b), std::max(a, b)});
  }
  for (int i = int(in.next()); i > 0; i--) {
    int part = int(in.next());
    Solid one;
    if (!readSolid(in, one, false)) return false;
    s.objects.emplace_back(new Object(one, part));
  }
  for (int i = int(in.next()); i > 0; i--) {
    s.heights.emplace_back();
    for (const auto& o : s.objects) s.heights.back().push_back(readPose(in, o->kind));
  }
  return !in.bad && !in.more();
}

struct Sampling {
  const Scene* scene;
  long queries = 0;
  double least = 0;
};

// near is called for every two objects whose boxes touch.
bool near(fcl::CollisionObjectd* a, fcl::CollisionObjectd* b, void* data) {
  auto* s = static_cast<Sampling*>(data);
  int i = static_cast<Object*>(a)->part, j = static_cast<Object*>(b)->part;
  if (i == j || s->scene->joined.count({std::min(i, j), std::max(i, j)})) return false;
  fcl::DistanceRequestd ask(true);
  fcl::DistanceResultd got;
  fcl::distance(a, b, ask, got);
  s->queries++;
  s->least = std::min(s->least, got.min_distance);
  return false;
}

// sample goes through the heights with the library's tree of boxes and asks
// for the distance of every pair that comes within the need.
int sample(int rounds) {
  std::string text((std::istreambuf_iterator<char>(std::cin)), std::istreambuf_iterator<char>());
  Numbers in{text.c_str()};
  Scene s;
  if (!readScene(in, s)) return fail("not a scene", 0);
  std::vector<fcl::CollisionObjectd*> all;
  for (const auto& o : s.objects) all.push_back(o.get());
  Sampling got{&s};
  std::vector<double> took;
  for (int r = 0; r < rounds; r++) {
    got = Sampling{&s};
    auto start = Clock::now();
    fcl::DynamicAABBTreeCollisionManagerd tree;
    for (size_t h = 0; h < s.heights.size(); h++) {
      for (size_t i = 0; i < all.size(); i++) s.objects[i]->stand(s.heights[h][i], s.need / 2);
      if (h == 0) {
        tree.registerObjects(all);
        tree.setup();
      } else {
        tree.update();
      }
      tree.collide(&got, near);
    }
    took.push_back(nanos(start));
  }
  std::printf("%ld", got.queries);
  for (double t : took) std::printf(" %.9g", t);
  std::printf("\n");
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  rlimit none{0, 0};
  setrlimit(RLIMIT_CORE, &none);  // an assert of the library leaves no file behind
  std::ios::sync_with_stdio(false);
  std::string mode = argc > 1 ? argv[1] : "";
  if (mode == "distances" && argc == 2) return distances();
  if (mode == "time" && argc == 4) return timeGroups(std::atoi(argv[2]), std::atof(argv[3]));
  if (mode == "sample" && argc == 3) return sample(std::atoi(argv[2]));
  std::fprintf(stderr, "usage: fcl distances | time ROUNDS MS | sample ROUNDS\n");
  return 2;
}
