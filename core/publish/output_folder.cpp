#include "core/publish/output_folder.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <sstream>
#include <system_error>
#include <utility>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/media/file/sha256.h"

namespace core::publish {
namespace {

namespace fs = std::filesystem;
using ContentsJson = nlohmann::ordered_json;

std::string contentOf(const fs::path& file) {
    const std::ifstream stream{file, std::ios::binary};
    std::ostringstream content;
    content << stream.rdbuf();
    return content.str();
}

/// The list in a staging folder of what is being moved out of it: its presence says that all of it
/// is ready.
constexpr std::string_view kMoves = ".moves.json";

/// A file on its way to its place, and what it replaces there: a fingerprint, or nothing.
struct Move {
    std::string name;
    std::string replaces;
};

bool isPlainName(const fs::path& name) {
    return !name.empty() && name.is_relative() &&
           std::none_of(name.begin(), name.end(),
                        [](const fs::path& part) { return part == ".." || part == "."; });
}

/// A folder or a link in the way of a name; empty when there is none.
fs::path inTheWayOf(const fs::path& folder, const std::string& name) {
    std::error_code problem;
    const auto file = folder / name;
    for (auto parent = file.parent_path(); parent != folder; parent = parent.parent_path()) {
        if (fs::is_symlink(parent, problem) ||
            (fs::exists(parent, problem) && !fs::is_directory(parent, problem))) {
            return parent;
        }
    }
    return {};
}

/// Of the file that has this name, its dated line counted too: what exactly is replaced.
std::string fingerprintAt(const fs::path& file) {
    std::error_code problem;
    return fs::exists(fs::symlink_status(file, problem)) ? media::sha256(contentOf(file))
                                                         : std::string{};
}

Result<void> writeMoves(const fs::path& staging, const std::vector<Move>& moves) {
    ContentsJson list = ContentsJson::array();
    for (const Move& move : moves) {
        list.push_back({{"path", move.name}, {"replaces", move.replaces}});
    }
    return writeFile(staging / kMoves, list.dump() + "\n");
}

/// Brings the files and the list of them to the disk.
Result<std::vector<Move>> movesMadeReady(const fs::path& staging, const fs::path& folder,
                                         const std::vector<std::string>& names) {
    std::vector<Move> moves;
    for (const auto& name : names) {
        BOOST_OUTCOME_TRY(syncToDisk(staging / name));
        BOOST_OUTCOME_TRY(syncNameToDisk(staging / name));
        moves.push_back({name, fingerprintAt(folder / name)});
    }
    for (const auto& name : names) {
        const auto parent = (staging / name).parent_path();
        BOOST_OUTCOME_TRY(syncNameToDisk(parent));
    }
    BOOST_OUTCOME_TRY(writeMoves(staging, moves));
    return moves;
}

/// Nothing when there is no list, or one of another make.
std::vector<Move> movesIn(const fs::path& staging) {
    std::vector<Move> moves;
    const ContentsJson list = ContentsJson::parse(contentOf(staging / kMoves), nullptr, false);
    if (!list.is_array()) {
        return moves;
    }
    for (const auto& item : list) {
        if (item.is_object() && item.contains("path") && item["path"].is_string() &&
            item.contains("replaces") && item["replaces"].is_string() &&
            isPlainName(item["path"].get<std::string>())) {
            moves.push_back({item["path"].get<std::string>(), item["replaces"].get<std::string>()});
        }
    }
    return moves;
}

/// Moves to their places what is not there yet, and brings the names to the disk.
Result<void> moveAll(const fs::path& staging, const fs::path& folder,
                     const std::vector<Move>& moves) {
    std::map<fs::path, fs::path> folders;  // each with a file in it
    for (const Move& move : moves) {
        std::error_code problem;
        const auto file = folder / move.name;
        fs::create_directories(file.parent_path(), problem);
        fs::rename(staging / move.name, file, problem);
        if (problem) {
            return fail(ErrorCode::WriteFailed,
                        cannotWrite(file, problem.message()).message + " " +
                            said("Some of the files are new already: write into this folder again, "
                                 "which finishes the rest."));
        }
        for (auto at = file; at != folder; at = at.parent_path()) {
            folders[at.parent_path()] = at;
        }
    }
    for (const auto& [where, file] : folders) {
        BOOST_OUTCOME_TRY(syncNameToDisk(file));
    }
    return ok();
}

/// What is left of the moves of a stopped program, without those whose place somebody else has
/// taken or changed since.
Result<void> finishMoves(StagingFolder& left, const fs::path& folder, const WriteRule& rule) {
    std::vector<Move> moves;
    for (Move& move : movesIn(left.path())) {
        std::error_code problem;
        const auto file = folder / move.name;
        const bool isReady =
            fs::is_regular_file(fs::symlink_status(left.path() / move.name, problem));
        if (isReady && inTheWayOf(folder, move.name).empty() &&
            fingerprintAt(file) == move.replaces &&
            mayWrite(file, {Existing::Overwrite, rule.inUse})) {
            moves.push_back(std::move(move));
        }
    }
    Result<void> done = moveAll(left.path(), folder, moves);
    if (!done) {
        left.abandon();
    }
    return done;
}

}  // namespace

std::string contentFingerprint(std::string_view content) {
    const auto mark = content.find(kDatedLineMark);
    if (mark == std::string_view::npos) {
        return media::sha256(content);
    }
    const auto before = content.rfind('\n', mark);
    const auto begin = before == std::string_view::npos ? 0 : before + 1;
    const auto end = std::min(content.find('\n', mark), content.size());
    return media::sha256(std::string{content.substr(0, begin)} + std::string{content.substr(end)});
}

OutputFolder::OutputFolder(fs::path folder, StagingFolder staging, WriteRule foreign)
    : m_folder{std::move(folder)}, m_staging{std::move(staging)}, m_foreign{std::move(foreign)} {
    readContents();
}

Result<OutputFolder> OutputFolder::open(const fs::path& folder, WriteRule foreign) {
    if (!folder.has_filename() && folder.has_relative_path()) {
        return open(folder.parent_path(), std::move(foreign));  // "out/": files in it say "out"
    }
    std::error_code problem;
    if (fs::exists(folder, problem) && !fs::is_directory(folder, problem)) {
        return fail(ErrorCode::InvalidInput,
                    said("{} is a file. Name a folder to write into.", folder.string()));
    }
    const bool isNew = fs::create_directories(folder, problem);
    if (problem) {
        return cannotWrite(folder, problem.message());
    }
    if (isNew) {
        BOOST_OUTCOME_TRY(syncNameToDisk(folder));
    }
    for (StagingFolder& left : StagingFolder::abandonedIn(folder)) {
        BOOST_OUTCOME_TRY(finishMoves(left, folder, foreign));
    }
    BOOST_OUTCOME_TRY(staging, StagingFolder::in(folder));
    return OutputFolder{folder, std::move(staging), std::move(foreign)};
}

void OutputFolder::readContents() {
    const auto file = m_folder / kContentsFile;
    const ContentsJson contents = ContentsJson::parse(contentOf(file), nullptr, false);
    if (!contents.is_object() || !contents.contains("files") || !contents["files"].is_array()) {
        return;
    }
    for (const auto& item : contents["files"]) {
        if (item.is_object() && item.contains("path") && item["path"].is_string() &&
            item.contains("sha256") && item["sha256"].is_string()) {
            m_known[item["path"].get<std::string>()] = item["sha256"].get<std::string>();
        }
    }
    m_known[std::string{kContentsFile}] = contentFingerprint(contentOf(file));
}

Result<void> OutputFolder::checkNotForeign(const std::string& name) const {
    const auto file = m_folder / name;
    if (const fs::path parent = inTheWayOf(m_folder, name); !parent.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("{} is in the way: a folder of this name is needed there. Choose another "
                         "folder, or move it away.",
                         parent.string()));
    }
    std::error_code problem;
    const auto known = m_known.find(name);
    const bool isOurs = known != m_known.end() &&
                        fs::is_regular_file(fs::symlink_status(file, problem)) &&
                        contentFingerprint(contentOf(file)) == known->second;
    return isOurs ? Result<void>{ok()} : mayWrite(file, m_foreign);
}

Result<fs::path> OutputFolder::place(const std::string& name) {
    CORE_EXPECTS(isPlainName(name));
    CORE_EXPECTS(std::find(m_names.begin(), m_names.end(), name) == m_names.end());
    BOOST_OUTCOME_TRY(checkNotForeign(name));
    const auto file = m_staging.path() / name;
    std::error_code problem;
    fs::create_directories(file.parent_path(), problem);
    if (problem) {
        return cannotWrite(file.parent_path(), problem.message());
    }
    m_names.push_back(name);
    return file;
}

Result<void> OutputFolder::put(const std::string& name, std::string_view content) {
    BOOST_OUTCOME_TRY(file, place(name));
    std::ofstream stream{file, std::ios::binary | std::ios::trunc};
    stream.write(content.data(), static_cast<std::streamsize>(content.size()));
    stream.close();
    if (!stream) {
        return cannotWrite(m_folder / name, {});
    }
    return ok();
}

fs::path OutputFolder::scratch(const std::string& fileName) const {
    return m_staging.path() / (".scratch-" + fileName);
}

Result<void> OutputFolder::take(const std::string& name, const fs::path& scratchFile) {
    BOOST_OUTCOME_TRY(file, place(name));
    std::error_code problem;
    fs::rename(scratchFile, file, problem);
    if (problem) {
        return cannotWrite(m_folder / name, problem.message());
    }
    return ok();
}

std::string OutputFolder::contentsJson(const std::string& writer,
                                       const std::map<std::string, std::string>& all) const {
    ContentsJson files = ContentsJson::array();
    for (const auto& [name, fingerprint] : all) {
        files.push_back({{"path", name}, {"sha256", fingerprint}});
    }
    return ContentsJson{
               {"written_by", writer},
               {"about",
                "Files that the program wrote here. A fingerprint is the SHA-256 of the file, a "
                "line with the date of publishing left out; a file that differs from it was "
                "changed since and is not overwritten."},
               {"files", files}}
               .dump(2, ' ', false, ContentsJson::error_handler_t::replace) +
           "\n";
}

Result<Written> OutputFolder::commit(const std::string& writer) {
    std::map<std::string, std::string> all;
    Written written;
    for (const auto& name : m_names) {
        all[name] = contentFingerprint(contentOf(m_staging.path() / name));
    }
    for (const auto& [name, fingerprint] : m_known) {
        const bool isElse = name != kContentsFile && isPlainName(name) && !all.contains(name);
        if (isElse && contentFingerprint(contentOf(m_folder / name)) == fingerprint) {
            all[name] = fingerprint;
            written.leftOver.push_back(m_folder / name);
        }
    }
    std::sort(m_names.begin(), m_names.end());
    BOOST_OUTCOME_TRY(put(std::string{kContentsFile}, contentsJson(writer, all)));
    BOOST_OUTCOME_TRY(moves, movesMadeReady(m_staging.path(), m_folder, m_names));
    if (Result<void> moved = moveAll(m_staging.path(), m_folder, moves); !moved) {
        m_staging.abandon();
        return moved.error();
    }
    for (const auto& move : moves) {
        written.files.push_back(m_folder / move.name);
    }
    std::sort(written.files.begin(), written.files.end());
    return written;
}

}  // namespace core::publish
