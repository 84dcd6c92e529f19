// A reader's fuzzing without a fuzzer: every seed, then RUNS changed copies, the same ones each time. A crash or an abort is a failure.
//   fuzz_X RUNS FOLDER...
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

using Random = std::mt19937_64;

std::size_t below(Random& random, std::size_t count) { return count == 0 ? 0 : random() % count; }

std::vector<std::string> seedsOf(int count, char** folders)
{
    std::vector<std::filesystem::path> files;
    for (int i = 0; i < count; ++i) {
        for (const auto& file : std::filesystem::directory_iterator(folders[i])) {
            files.push_back(file.path());
        }
    }
    std::ranges::sort(files);
    std::vector<std::string> seeds;
    for (const auto& file : files) {
        std::ifstream in(file, std::ios::binary);
        seeds.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
    }
    return seeds;
}

// One change: a bit, a byte, a stretch left out, written twice, or taken from another seed.
void change(std::string& bytes, const std::string& other, Random& random)
{
    const std::size_t at = below(random, bytes.size());
    const std::size_t length = 1 + below(random, 64);
    switch (random() % 5) {
    case 0:
        if (!bytes.empty()) {
            bytes[at] = static_cast<char>(bytes[at] ^ (1 << (random() % 8)));
        }
        break;
    case 1:
        bytes.insert(at, 1, static_cast<char>(random()));
        break;
    case 2:
        bytes.erase(at, length);
        break;
    case 3:
        bytes.insert(at, bytes.substr(at, length));
        break;
    default:
        bytes.insert(at, other.substr(below(random, other.size()), length));
    }
}

void give(const std::string& bytes)
{
    LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()); // NOLINT(*-reinterpret-cast)
}

} // namespace

int main(int argc, char** argv)
{
    if (argc < 3) {
        std::fputs("fuzz_X RUNS FOLDER...\n", stderr);
        return 2;
    }
    const auto seeds = seedsOf(argc - 2, argv + 2);
    if (seeds.empty()) {
        std::fputs("no seeds in the folders\n", stderr);
        return 2;
    }
    std::ranges::for_each(seeds, give);
    Random random(1);
    const auto runs = std::strtoul(argv[1], nullptr, 10);
    for (std::size_t run = 0; run < runs; ++run) {
        std::string bytes = seeds[below(random, seeds.size())];
        for (std::size_t changes = 1 + random() % 8; changes > 0; --changes) {
            change(bytes, seeds[below(random, seeds.size())], random);
        }
        give(bytes);
    }
    std::printf("%zu seeds and %zu changed copies of them: read or refused\n", seeds.size(), std::size_t{runs});
}
