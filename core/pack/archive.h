#pragma once

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "core/base/result.h"

namespace core::pack {

/// Writes a tar archive in the pax format. Private to core/pack. Confined.
class ArchiveWriter {
public:
    /// Errors: WriteFailed.
    static Result<std::unique_ptr<ArchiveWriter>> create(const std::filesystem::path& file);
    ~ArchiveWriter();
    ArchiveWriter(const ArchiveWriter&) = delete;
    ArchiveWriter& operator=(const ArchiveWriter&) = delete;

    /// Begins a plain file; exactly `size` bytes have to follow by add(). Errors: WriteFailed.
    Result<void> begin(const std::string& path, std::int64_t size);
    Result<void> add(std::string_view bytes);
    Result<void> finish();

private:
    struct Handle;
    explicit ArchiveWriter(std::unique_ptr<Handle> handle);
    std::unique_ptr<Handle> m_handle;
};

/// Reads a tar archive that is not compressed. Private to core/pack. Confined.
class ArchiveReader {
public:
    /// Errors: NotFound; ForeignFile; Unreadable.
    static Result<std::unique_ptr<ArchiveReader>> open(const std::filesystem::path& file);
    /// A trusted archive in the memory, which must outlive the reader; it may be compressed by xz.
    /// Errors: ForeignFile.
    static Result<std::unique_ptr<ArchiveReader>> of(std::span<const std::byte> bytes);
    ~ArchiveReader();
    ArchiveReader(const ArchiveReader&) = delete;
    ArchiveReader& operator=(const ArchiveReader&) = delete;

    struct Entry {
        std::string path;
        bool isPlainFile{};  ///< no folder, link, device or pipe
    };
    /// Absent at the end. Errors: Damaged.
    Result<std::optional<Entry>> next();
    /// The content of the entry, piece by piece, until the sink fails. Errors: Damaged; the sink's.
    Result<void> read(const std::function<Result<void>(std::string_view)>& sink);

private:
    struct Handle;
    explicit ArchiveReader(std::unique_ptr<Handle> handle);
    std::unique_ptr<Handle> m_handle;
};

}  // namespace core::pack
