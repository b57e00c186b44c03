// What the native peers share: reading the workload file, timing, reporting.
#pragma once

#include <sys/resource.h>

#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <string>
#include <vector>

struct Workload {
  std::vector<double> coords;
  std::vector<std::uint32_t> starts;
  std::uint32_t lines() const { return starts.size() - 1; }
};

inline Workload read_workload(const char* path) {
  std::FILE* file = std::fopen(path, "rb");
  std::uint32_t head[2];
  Workload w;
  if (file == nullptr || std::fread(head, sizeof head, 1, file) != 1) std::exit(2);
  w.coords.resize(2 * static_cast<std::size_t>(head[1]));
  w.starts.resize(static_cast<std::size_t>(head[0]) + 1);
  if (std::fread(w.coords.data(), sizeof(double), w.coords.size(), file) != w.coords.size()) std::exit(2);
  if (std::fread(w.starts.data(), sizeof(std::uint32_t), w.starts.size(), file) != w.starts.size()) std::exit(2);
  std::fclose(file);
  return w;
}

class Report {
 public:
  explicit Report(std::string version) : version_(std::move(version)) {}
  // Whether another run is wanted: at least so many runs and so many seconds of processor time.
  bool goes_on(int runs, double seconds) const {
    double spent = 0;
    for (const double ms : cpu_ms_) spent += ms / 1000;
    return ms_.size() < static_cast<std::size_t>(runs) || spent < seconds;
  }
  void start() {
    from_ = std::chrono::steady_clock::now();
    cpu_from_ = std::clock();
  }
  void stop(std::size_t faces) {
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - from_;
    ms_.push_back(took.count());
    cpu_ms_.push_back(1000.0 * (std::clock() - cpu_from_) / CLOCKS_PER_SEC);
    faces_ = faces;
  }
  void print() const {
    rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    std::printf("{\"version\":\"%s\",\"faces\":%zu,\"peakKiB\":%ld", version_.c_str(), faces_,
                usage.ru_maxrss);
    print_list("ms", ms_);
    print_list("cpuMs", cpu_ms_);
    std::printf("}\n");
  }

 private:
  static void print_list(const char* name, const std::vector<double>& values) {
    std::printf(",\"%s\":[", name);
    for (std::size_t i = 0; i < values.size(); i++) std::printf(i == 0 ? "%.3f" : ",%.3f", values[i]);
    std::printf("]");
  }

  std::string version_;
  std::chrono::steady_clock::time_point from_;
  std::clock_t cpu_from_ = 0;
  std::vector<double> ms_;
  std::vector<double> cpu_ms_;
  std::size_t faces_ = 0;
};
