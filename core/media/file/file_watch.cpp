#include "core/media/file/file_watch.h"

#include <tuple>

#include "core/base/words.h"
#include "core/media/file/clip_file.h"
#include "core/media/file/clip_index.h"

namespace core::media {
namespace {

bool isSame(const struct stat& a, const struct stat& b) {
    const auto facts = [](const struct stat& status) {
        return std::tuple{status.st_dev,         status.st_ino,          status.st_size,
                          status.st_mtim.tv_sec, status.st_mtim.tv_nsec, status.st_ctim.tv_sec,
                          status.st_ctim.tv_nsec};
    };
    return facts(a) == facts(b);
}

}  // namespace

std::optional<struct stat> FileWatch::status() const {
    struct stat status {};
    return ::stat(m_file.c_str(), &status) == 0 ? std::optional{status} : std::nullopt;
}

bool FileWatch::isUntouched() const {
    const auto now = status();
    return now && m_known && isSame(*now, *m_known);
}

Result<bool> FileWatch::check() {
    const auto now = status();  // before the content: a change after it will be seen
    if (now && m_known && isSame(*now, *m_known)) {
        return false;
    }
    const bool isFirst = !m_known && m_fingerprint.empty();
    m_known.reset();
    if (!now) {
        return fail(
            ErrorCode::NotFound,
            aboutFile(m_file, said("There is no such file. It was moved, renamed or deleted; "
                                   "put it back or show where it is.")));
    }
    BOOST_OUTCOME_TRY(content, fingerprint(m_file));
    if (isFirst) {
        m_fingerprint = content;
    } else if (content != m_fingerprint) {
        return fail(
            ErrorCode::InvalidInput,
            aboutFile(m_file, said("Another file lies under the clip's name now: its content "
                                   "is not that of the clip. Put the clip's own file back.")));
    }
    m_known = now;
    return true;
}

}  // namespace core::media
