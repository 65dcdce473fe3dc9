#include "core/pack/archive.h"

#include <archive.h>
#include <archive_entry.h>
#include <ctime>
#include <vector>

#include "core/base/neutral_locale.h"
#include "core/base/words.h"

namespace core::pack {
namespace {

constexpr std::size_t kPieceBytes = std::size_t{1} << 18U;

std::string saidBy(archive* handle) {
    const char* text = archive_error_string(handle);
    return text != nullptr ? std::string{text} : said("no reason given");
}

}  // namespace

struct ArchiveWriter::Handle {
    std::filesystem::path file;
    archive* out{archive_write_new()};
    ~Handle() { archive_write_free(out); }

    [[nodiscard]] auto failure() const {
        return fail(ErrorCode::WriteFailed,
                    said("{} cannot be written ({}). Check that the disk has room and that "
                         "you may write to the folder.",
                         file.string(), saidBy(out)));
    }
};

ArchiveWriter::ArchiveWriter(std::unique_ptr<Handle> handle) : m_handle{std::move(handle)} {}
ArchiveWriter::~ArchiveWriter() = default;

Result<std::unique_ptr<ArchiveWriter>> ArchiveWriter::create(const std::filesystem::path& file) {
    const NeutralLocale names;
    auto handle = std::make_unique<Handle>();
    handle->file = file;
    if (archive_write_set_format_pax(handle->out) != ARCHIVE_OK ||
        archive_write_set_options(handle->out, "hdrcharset=UTF-8") != ARCHIVE_OK ||
        archive_write_open_filename(handle->out, file.c_str()) != ARCHIVE_OK) {
        return handle->failure();
    }
    return std::unique_ptr<ArchiveWriter>{new ArchiveWriter{std::move(handle)}};
}

Result<void> ArchiveWriter::begin(const std::string& path, std::int64_t size) {
    const std::unique_ptr<archive_entry, void (*)(archive_entry*)> entry{archive_entry_new(),
                                                                         archive_entry_free};
    const NeutralLocale names;  // in which libarchive takes a name for UTF-8
    archive_entry_set_pathname(entry.get(), path.c_str());
    archive_entry_set_size(entry.get(), size);
    archive_entry_set_filetype(entry.get(), AE_IFREG);
    archive_entry_set_perm(entry.get(), 0644);
    archive_entry_set_mtime(entry.get(), std::time(nullptr), 0);
    if (archive_write_header(m_handle->out, entry.get()) != ARCHIVE_OK) {
        return m_handle->failure();
    }
    return ok();
}

Result<void> ArchiveWriter::add(std::string_view bytes) {
    const auto written = archive_write_data(m_handle->out, bytes.data(), bytes.size());
    if (written != static_cast<la_ssize_t>(bytes.size())) {
        return m_handle->failure();
    }
    return ok();
}

Result<void> ArchiveWriter::finish() {
    if (archive_write_close(m_handle->out) != ARCHIVE_OK) {
        return m_handle->failure();
    }
    return ok();
}

struct ArchiveReader::Handle {
    std::filesystem::path file;
    archive* in{archive_read_new()};
    ~Handle() { archive_read_free(in); }

    [[nodiscard]] auto failure() const {
        return fail(ErrorCode::Damaged,
                    said("{} is damaged ({}). Nothing was unpacked. Copy it again.", file.string(),
                         saidBy(in)));
    }
};

ArchiveReader::ArchiveReader(std::unique_ptr<Handle> handle) : m_handle{std::move(handle)} {}
ArchiveReader::~ArchiveReader() = default;

Result<std::unique_ptr<ArchiveReader>> ArchiveReader::open(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::is_regular_file(file, error)) {
        return fail(ErrorCode::NotFound,
                    said("There is no file {}. Check the name and the folder.", file.string()));
    }
    auto handle = std::make_unique<Handle>();
    handle->file = file;
    archive_read_support_format_tar(handle->in);
    if (archive_read_open_filename(handle->in, file.c_str(), kPieceBytes) != ARCHIVE_OK) {
        return fail(ErrorCode::ForeignFile,
                    said("{} is no packed project ({}).", file.string(), saidBy(handle->in)));
    }
    return std::unique_ptr<ArchiveReader>{new ArchiveReader{std::move(handle)}};
}

Result<std::unique_ptr<ArchiveReader>> ArchiveReader::of(std::span<const std::byte> bytes) {
    auto handle = std::make_unique<Handle>();
    handle->file = said("The packed project");
    archive_read_support_filter_xz(handle->in);
    archive_read_support_format_tar(handle->in);
    if (archive_read_open_memory(handle->in, bytes.data(), bytes.size()) != ARCHIVE_OK) {
        return fail(ErrorCode::ForeignFile,
                    said("This is no packed project ({}).", saidBy(handle->in)));
    }
    return std::unique_ptr<ArchiveReader>{new ArchiveReader{std::move(handle)}};
}

Result<std::optional<ArchiveReader::Entry>> ArchiveReader::next() {
    const NeutralLocale names;
    archive_entry* entry = nullptr;
    const int code = archive_read_next_header(m_handle->in, &entry);
    if (code == ARCHIVE_EOF) {
        return std::optional<Entry>{};
    }
    if (code != ARCHIVE_OK && code != ARCHIVE_WARN) {
        return m_handle->failure();
    }
    const char* name = archive_entry_pathname(entry);
    const bool isLink =
        archive_entry_hardlink(entry) != nullptr || archive_entry_symlink(entry) != nullptr;
    return std::optional{
        Entry{name != nullptr ? name : "", archive_entry_filetype(entry) == AE_IFREG && !isLink}};
}

Result<void> ArchiveReader::read(const std::function<Result<void>(std::string_view)>& sink) {
    std::vector<char> piece(kPieceBytes);
    for (;;) {
        const auto got = archive_read_data(m_handle->in, piece.data(), piece.size());
        if (got == 0) {
            return ok();
        }
        if (got < 0) {
            return m_handle->failure();
        }
        BOOST_OUTCOME_TRY(sink({piece.data(), static_cast<std::size_t>(got)}));
    }
}

}  // namespace core::pack
