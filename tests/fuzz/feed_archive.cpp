#include <archive.h>
#include <archive_entry.h>

#include <fstream>

#include "core/media/file/sha256.h"
#include "core/pack/manifest.h"
#include "core/pack/pack.h"
#include "tests/core/project/project_maker.h"
#include "tests/fuzz/promise.h"
#include "tests/fuzz/taken.h"

namespace tests::fuzz {
namespace {

using namespace core;
namespace fs = std::filesystem;

struct Item {
    std::string path;
    std::string content;
    unsigned type{AE_IFREG};
    bool isSaid{true};  ///< by the manifest
};

void add(archive* out, const Item& item) {
    archive_entry* entry = archive_entry_new();
    archive_entry_set_pathname(entry, item.path.c_str());
    archive_entry_set_filetype(entry, item.type);
    archive_entry_set_perm(entry, 0644);
    archive_entry_set_size(entry, static_cast<la_int64_t>(item.content.size()));
    if (item.type == AE_IFLNK) {
        archive_entry_set_symlink(entry, item.content.c_str());
    }
    if (archive_write_header(out, entry) == ARCHIVE_OK && item.type == AE_IFREG) {
        archive_write_data(out, item.content.data(), item.content.size());
    }
    archive_entry_free(entry);
}

std::vector<Item> takenItems(Taken& taken) {
    static const std::string kProject =
        tests::bytesOf(fs::path{TESTS_DATA_FOLDER} / "project" / "v1_small.turnmark");
    std::vector<Item> items;
    while (!taken.isEmpty() && items.size() < 12) {
        const unsigned choice = taken.byte();
        Item item;
        item.path = taken.text();
        item.content = taken.text();
        item.path = item.path.substr(0, item.path.find('\0'));
        if ((choice & 1U) != 0) {
            item.content = kProject;
        }
        item.isSaid = (choice & 2U) == 0;
        item.type = (choice & 12U) != 4U ? AE_IFREG : (choice & 16U) != 0 ? AE_IFLNK : AE_IFDIR;
        items.push_back(std::move(item));
    }
    return items;
}

/// An archive whose manifest fits what is in it.
void writeFitting(const fs::path& file, Taken& taken) {
    const std::vector<Item> items = takenItems(taken);
    pack::Manifest manifest;
    for (const Item& item : items) {
        if (item.isSaid) {
            media::Sha256 sum;
            sum.add(item.content);
            manifest.files.push_back(
                {item.path, static_cast<std::int64_t>(item.content.size()), sum.hexadecimal()});
        }
    }
    manifest.project = items.empty() ? "" : items.front().path;
    archive* out = archive_write_new();
    archive_write_set_format_pax(out);
    archive_write_open_filename(out, file.c_str());
    add(out, {std::string{pack::kManifestName}, pack::toJson(manifest)});
    for (const Item& item : items) {
        add(out, item);
    }
    archive_write_close(out);
    archive_write_free(out);
}

void feedManifest(const std::string& text) {
    const auto manifest = pack::manifestFrom(text);
    if (!manifest) {
        promiseWords(manifest.error());
        return;
    }
    promise(pack::manifestFrom(pack::toJson(manifest.value())).has_value(),
            "a manifest reads as it was written");
}

std::size_t countIn(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::recursive_directory_iterator{folder},
                                                  fs::recursive_directory_iterator{}));
}

void unpackAndLook(const fs::path& folder, const fs::path& file) {
    const auto unpacked = pack::unpack(file, folder / "to");
    if (!unpacked) {
        promiseWords(unpacked.error());
        promise(countIn(folder) == 1, "a failure leaves everything as it was");
        return;
    }
    const fs::path inside = fs::canonical(folder / "to");
    for (const fs::path& each : unpacked.value().files) {
        promise(fs::is_regular_file(fs::symlink_status(each)), "files only are unpacked");
        const auto [end, ignored] =
            std::mismatch(inside.begin(), inside.end(), fs::canonical(each).begin());
        promise(end == inside.end(), "nothing is unpacked elsewhere");
    }
    promise(fs::exists(unpacked.value().project), "the project is there");
}

}  // namespace

void feedArchive(Bytes bytes) {
    Taken taken{bytes};
    const unsigned which = taken.byte() % 3U;
    if (which == 0) {
        feedManifest(asText(taken.rest()));
        return;
    }
    const tests::project::TemporaryFolder folder;
    const fs::path file = folder.path() / "archive";
    if (which == 1) {
        std::ofstream{file, std::ios::binary} << asText(taken.rest());
    } else {
        writeFitting(file, taken);
    }
    unpackAndLook(folder.path(), file);
}

}  // namespace tests::fuzz
