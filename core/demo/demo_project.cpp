#include "core/demo/demo_project.h"

#include <system_error>
#include <utility>

#include "core/base/words.h"
#include "core/demo/embedded.h"
#include "core/pack/pack.h"

namespace core::demo {

std::filesystem::path demoProjectFile(const std::filesystem::path& folder) {
    return folder / "stringing bench (invented).turnmark";
}

Result<std::filesystem::path> unpackDemo(const std::filesystem::path& folder,
                                         std::stop_token stop) {
    const auto file = demoProjectFile(folder);
    std::error_code problem;
    if (std::filesystem::exists(file, problem)) {
        return fail(
            ErrorCode::InvalidInput,
            said("There is a demo already: {}. Open it, or name another folder.", file.string()));
    }
    std::filesystem::create_directories(folder.parent_path(), problem);  // unpack() says what fails
    BOOST_OUTCOME_TRY(unpacked, pack::unpack(embeddedDemo(), folder, std::move(stop)));
    return std::move(unpacked.project);
}

}  // namespace core::demo
