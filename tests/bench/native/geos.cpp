// Times noding and polygonizing with GEOS: unary union on a grid of 1/1024 or floating, then polygonize.
// Usage: geos FILE snap|floating RUNS SECONDS. Prints one line of JSON. Reads the file of encodeWorkload.
#include <geos_c.h>

#include "workload.hpp"

namespace {

GEOSGeometry* lines_of(GEOSContextHandle_t ctx, const Workload& w) {
  std::vector<GEOSGeometry*> parts;
  parts.reserve(w.lines());
  for (std::uint32_t i = 0; i < w.lines(); i++) {
    const std::uint32_t from = w.starts[i], to = w.starts[i + 1];
    if (to - from < 2) continue;
    GEOSCoordSequence* s =
        GEOSCoordSeq_copyFromBuffer_r(ctx, w.coords.data() + 2 * from, to - from, 0, 0);
    parts.push_back(GEOSGeom_createLineString_r(ctx, s));
  }
  return GEOSGeom_createCollection_r(ctx, GEOS_MULTILINESTRING, parts.data(), parts.size());
}

void say(const char* message, void*) { std::fprintf(stderr, "geos: %s\n", message); }

}  // namespace

int main(int argc, char** argv) {
  if (argc < 5) return 2;
  const Workload w = read_workload(argv[1]);
  const bool snap = std::strcmp(argv[2], "snap") == 0;
  GEOSContextHandle_t ctx = GEOS_init_r();
  GEOSContext_setErrorMessageHandler_r(ctx, say, nullptr);
  GEOSGeometry* lines = lines_of(ctx, w);
  Report report("GEOS " + std::string(GEOSversion()));
  while (report.goes_on(std::atoi(argv[3]), std::atof(argv[4]))) {
    report.start();
    GEOSGeometry* noded = snap ? GEOSUnaryUnionPrec_r(ctx, lines, 1.0 / 1024) : GEOSUnaryUnion_r(ctx, lines);
    if (noded == nullptr) return 1;
    GEOSGeometry* faces = GEOSPolygonize_r(ctx, &noded, 1);
    if (faces == nullptr) return 1;
    report.stop(GEOSGetNumGeometries_r(ctx, faces));
    GEOSGeom_destroy_r(ctx, faces);
    GEOSGeom_destroy_r(ctx, noded);
  }
  report.print();
  GEOSGeom_destroy_r(ctx, lines);
  GEOS_finish_r(ctx);
  return 0;
}
