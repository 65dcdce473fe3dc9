#include "core/publish/output_folder.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <sstream>
#include <system_error>
#include <utility>

#include "core/base/expects.h"
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

bool isPlainName(const fs::path& name) {
    return !name.empty() && name.is_relative() &&
           std::none_of(name.begin(), name.end(),
                        [](const fs::path& part) { return part == ".." || part == "."; });
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
    std::error_code problem;
    if (fs::exists(folder, problem) && !fs::is_directory(folder, problem)) {
        return fail(ErrorCode::InvalidInput,
                    folder.string() + " is a file. Name a folder to write into.");
    }
    fs::create_directories(folder, problem);
    if (problem) {
        return cannotWrite(folder, problem.message());
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
    std::error_code problem;
    for (auto parent = file.parent_path(); parent != m_folder; parent = parent.parent_path()) {
        const bool isInTheWay = fs::is_symlink(parent, problem) ||
                                (fs::exists(parent, problem) && !fs::is_directory(parent, problem));
        if (isInTheWay) {
            return fail(ErrorCode::InvalidInput,
                        parent.string() +
                            " is in the way: a folder of this name is needed there. Choose another "
                            "folder, or move it away.");
        }
    }
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
    std::error_code problem;
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
    for (const auto& name : m_names) {
        const auto file = m_folder / name;
        fs::create_directories(file.parent_path(), problem);
        fs::rename(m_staging.path() / name, file, problem);
        if (problem) {
            return cannotWrite(file, problem.message());
        }
        written.files.push_back(file);
    }
    std::sort(written.files.begin(), written.files.end());
    return written;
}

}  // namespace core::publish
