#include "core/ledger/entries_file.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <fcntl.h>
#include <fstream>
#include <unistd.h>

namespace brimful::ledger {

namespace {

// PERSISTED
constexpr std::string_view kFirstLine = "brimful-entries 1";
constexpr std::array<std::string_view, 4> kExtensions{"jpg", "png", "pdf", "txt"};
constexpr std::size_t kLongestLine = kLargestBody + 512;

// A file that is not there until it is whole.
class Part {
public:
    explicit Part(std::filesystem::path to)
        : m_to(std::move(to))
        , m_part(m_to.string() + ".part")
        , m_out(::open(m_part.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0644)) // NOLINT(cppcoreguidelines-pro-type-vararg)
    {
        m_error = m_out < 0 ? errno : 0;
    }
    Part(const Part&) = delete;
    Part& operator=(const Part&) = delete;
    ~Part()
    {
        if (m_out >= 0) {
            ::close(m_out);
            ::unlink(m_part.c_str());
        }
    }

    void write(std::string_view bytes)
    {
        m_buffer += bytes;
        if (m_buffer.size() > kFlushAt) {
            flush();
        }
    }
    [[nodiscard]] bool failed() const { return m_error != 0; }

    // 0, or what went wrong.
    int finish()
    {
        flush();
        if (m_error == 0 && (::fsync(m_out) != 0 || ::rename(m_part.c_str(), m_to.c_str()) != 0)) {
            m_error = errno;
        }
        if (m_error != 0) {
            return m_error;
        }
        ::close(m_out);
        m_out = -1;
        const std::filesystem::path parent = m_to.has_parent_path() ? m_to.parent_path() : std::filesystem::path(".");
        const int folder = ::open(parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC); // NOLINT(cppcoreguidelines-pro-type-vararg)
        if (folder < 0 || ::fsync(folder) != 0) {
            m_error = errno;
        }
        if (folder >= 0) {
            ::close(folder);
        }
        return m_error;
    }

private:
    static constexpr std::size_t kFlushAt = 1U << 20U;

    void flush()
    {
        std::string_view left = m_buffer;
        while (m_error == 0 && !left.empty()) {
            const auto step = ::write(m_out, left.data(), left.size());
            if (step < 0 && errno != EINTR) {
                m_error = errno;
            } else if (step > 0) {
                left.remove_prefix(static_cast<std::size_t>(step));
            }
        }
        m_buffer.clear();
    }

    std::filesystem::path m_to;
    std::filesystem::path m_part;
    int m_out;
    int m_error;
    std::string m_buffer;
};

StoreError errorOf(int code, const std::filesystem::path& file)
{
    const bool full = code == ENOSPC || code == EDQUOT;
    const bool forbidden = code == EACCES || code == EPERM || code == EROFS || code == ENOENT || code == ENOTDIR || code == EISDIR;
    return {full ? StoreFault::Full : forbidden ? StoreFault::Unwritable : StoreFault::Input, file.string(), std::strerror(code)}; // NOLINT
}

std::filesystem::path fileOf(const std::filesystem::path& evidence, const std::string& hex)
{
    for (const std::string_view extension : kExtensions) {
        auto file = evidence / hex.substr(0, 2) / (hex + "." + std::string(extension));
        std::error_code hidden;
        if (std::filesystem::exists(file, hidden)) {
            return file;
        }
    }
    return {};
}

std::string lineOf(const Stored& row)
{
    return "entry " + canon::toHex(row.hash) + " " + canon::toHex(row.device_signature) + " "
        + (row.person_signature ? canon::toHex(*row.person_signature) : "-") + " " + row.body + "\n";
}

// Words of a line, parted by one space each.
class Words {
public:
    explicit Words(std::string_view line)
        : m_left(line)
    {
    }
    std::string_view next()
    {
        const std::size_t end = std::min(m_left.find(' '), m_left.size());
        const std::string_view word = m_left.substr(0, end);
        m_left.remove_prefix(std::min(end + 1, m_left.size()));
        return word;
    }
    [[nodiscard]] std::string_view rest() const { return m_left; }

private:
    std::string_view m_left;
};

// Decimal digits alone, without a leading zero.
std::optional<std::uint64_t> numberOf(std::string_view word)
{
    std::uint64_t number = 0;
    const auto [end, error] = std::from_chars(word.data(), word.data() + word.size(), number);
    const bool plain = error == std::errc() && end == word.data() + word.size() && (word.size() == 1 || word.front() != '0');
    return plain ? std::optional(number) : std::nullopt;
}

class Reading {
public:
    explicit Reading(std::istream& in)
        : m_in(in)
    {
    }

    tl::expected<Carried, FileError> run()
    {
        std::string line;
        if (!next(line) || line != kFirstLine) {
            return no(std::string(kFirstLine));
        }
        while (next(line)) {
            Words words(line);
            const std::string_view what = words.next();
            std::string expected;
            if (what == "entry") {
                expected = entry(words);
            } else if (what == "file") {
                expected = file(words);
            } else if (what == "end") {
                const bool counts = numberOf(words.next()) == m_out.rows.size() && numberOf(words.next()) == m_out.files.size();
                return counts && words.rest().empty() && m_in.peek() == std::istream::traits_type::eof()
                    ? tl::expected<Carried, FileError>(std::move(m_out))
                    : no("end, and what came before whole");
            } else {
                expected = "entry, file or end";
            }
            if (!expected.empty()) {
                return no(std::move(expected));
            }
        }
        return no("a line of at most 64 KiB, and an end");
    }

private:
    [[nodiscard]] tl::expected<Carried, FileError> no(std::string expected) const
    {
        return tl::unexpected(FileError{m_line, std::move(expected)});
    }

    // Never more of a line than a line may have.
    bool next(std::string& line)
    {
        ++m_line;
        line.clear();
        for (int c = m_in.get(); c != std::istream::traits_type::eof(); c = m_in.get()) {
            if (c == '\n') {
                return true;
            }
            if (line.size() >= kLongestLine) {
                return false;
            }
            line.push_back(static_cast<char>(c));
        }
        return false;
    }

    // "" or what was expected.
    std::string entry(Words words)
    {
        Stored row;
        row.row = m_out.rows.size() + 1;
        const auto hash = canon::fromHex<Hash>(words.next());
        const auto device = canon::fromHex<Signature>(words.next());
        const std::string_view person = words.next();
        if (!hash || !device) {
            return "a hash and a signature in hex";
        }
        row.hash = *hash;
        row.device_signature = *device;
        if (person != "-") {
            row.person_signature = canon::fromHex<Signature>(person);
            if (!row.person_signature) {
                return "a signature in hex, or -";
            }
        }
        row.body = words.rest();
        if (canon::leafHash(row.body) != row.hash) {
            return "a body of that hash";
        }
        if (!decode(row.body)) {
            return "an entry's body";
        }
        m_out.rows.push_back(std::move(row));
        return {};
    }

    std::string file(Words words)
    {
        const auto hash = canon::fromHex<Hash>(words.next());
        CarriedFile file;
        file.extension = words.next();
        const auto size = numberOf(words.next());
        if (!hash || !size || !words.rest().empty() || *size > kLargestAttachment
            || std::ranges::find(kExtensions, file.extension) == kExtensions.end()) {
            return "a hash, jpg png pdf or txt, and a size";
        }
        file.hash = *hash;
        file.size = *size;
        file.at = static_cast<std::uint64_t>(std::max<std::streamoff>(0, m_in.tellg()));
        std::string bytes; // grows with what is there, not with what is claimed
        std::array<char, 65536> block{};
        while (bytes.size() < file.size && m_in) {
            m_in.read(block.data(), static_cast<std::streamsize>(std::min<std::uint64_t>(block.size(), file.size - bytes.size())));
            bytes.append(block.data(), static_cast<std::size_t>(m_in.gcount()));
        }
        if (bytes.size() != file.size || canon::sha256(bytes) != file.hash || m_in.get() != '\n') {
            return "bytes of that hash and size";
        }
        m_out.files.push_back(std::move(file));
        return {};
    }

    std::istream& m_in;
    std::uint64_t m_line{};
    Carried m_out;
};

} // namespace

tl::expected<Exported, StoreError> writeEntries(const Ledger& ledger, const std::filesystem::path& to, const ExportRequest& request)
{
    Exported out;
    Part part(to);
    std::vector<Hash> named; // in the order of the entries
    part.write(std::string(kFirstLine) + "\n");
    const auto read = ledger.stream([&](const Stored& row) {
        part.write(lineOf(row));
        ++out.entries;
        const auto entry = decode(row.body);
        if (entry && (!request.vessel || !entry->vessel || entry->vessel == request.vessel)) {
            named.insert(named.end(), entry->attachments.begin(), entry->attachments.end());
        }
        return !part.failed();
    });
    if (!read) {
        return tl::unexpected(read.error());
    }
    std::ranges::sort(named);
    named.erase(std::unique(named.begin(), named.end()), named.end());
    for (const Hash& hash : named) {
        const std::string hex = canon::toHex(hash);
        const auto file = request.evidence.empty() ? std::filesystem::path() : fileOf(request.evidence, hex);
        std::ifstream in(file, std::ios::binary);
        const std::string bytes{std::istreambuf_iterator<char>(in), {}};
        if (file.empty() || bytes.size() > kLargestAttachment || canon::sha256(bytes) != hash) {
            continue; // missing or changed here: the entry that names it tells so wherever it comes
        }
        part.write("file " + hex + " " + file.extension().string().substr(1) + " " + std::to_string(bytes.size()) + "\n");
        part.write(bytes);
        part.write("\n");
        ++out.files;
    }
    part.write("end " + std::to_string(out.entries) + " " + std::to_string(out.files) + "\n");
    if (const int error = part.finish(); error != 0) {
        return tl::unexpected(errorOf(error, to));
    }
    return out;
}

tl::expected<Carried, FileError> readEntries(std::istream& in) { return Reading(in).run(); }

} // namespace brimful::ledger
