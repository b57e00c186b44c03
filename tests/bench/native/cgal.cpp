// Times CGAL's Arrangement_2: exact predicates and constructions, aggregated insertion (one sweep).
// Usage: cgal FILE RUNS SECONDS. Prints one line of JSON. Reads the file of encodeWorkload.
#include <CGAL/Arr_segment_traits_2.h>
#include <CGAL/Arrangement_2.h>
#include <CGAL/Exact_predicates_exact_constructions_kernel.h>
#include <CGAL/version.h>

#include "workload.hpp"

using Kernel = CGAL::Exact_predicates_exact_constructions_kernel;
using Traits = CGAL::Arr_segment_traits_2<Kernel>;
using Arrangement = CGAL::Arrangement_2<Traits>;

int main(int argc, char** argv) {
  if (argc < 4) return 2;
  const Workload w = read_workload(argv[1]);
  Report report(std::string("CGAL ") + CGAL_VERSION_STR);
  while (report.goes_on(std::atoi(argv[2]), std::atof(argv[3]))) {
    report.start();
    std::vector<Traits::X_monotone_curve_2> segments;
    segments.reserve(w.coords.size() / 2);
    for (std::uint32_t i = 0; i < w.lines(); i++) {
      for (std::uint32_t v = w.starts[i]; v + 1 < w.starts[i + 1]; v++) {
        const Kernel::Point_2 a(w.coords[2 * v], w.coords[2 * v + 1]);
        const Kernel::Point_2 b(w.coords[2 * v + 2], w.coords[2 * v + 3]);
        if (a != b) segments.emplace_back(a, b);
      }
    }
    Arrangement arrangement;
    CGAL::insert(arrangement, segments.begin(), segments.end());
    report.stop(arrangement.number_of_faces() - 1);
  }
  report.print();
  return 0;
}
