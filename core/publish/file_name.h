#pragma once

#include <set>
#include <string>
#include <string_view>

namespace core::publish {

/// Makes file names out of what people typed. Confined.
///
/// A name consists of lower-case ASCII letters, digits and single hyphens, at most 60 of them,
/// whatever the text holds: path separators, "..", control characters, device names of Windows and
/// scripts that a file system or a web server may mangle cannot get into it. Letters of other
/// scripts are left out (the text itself stands in the tables). Two texts never get one name.
class FileNames {
public:
    /// The name for a text, without extension; "unnamed" when nothing is left of it. A name that is
    /// taken gets "-2", "-3" and so on.
    std::string nameFor(std::string_view text);

private:
    std::set<std::string> m_taken;
};

}  // namespace core::publish
