#pragma once

#include <string>

#include "core/project/store.h"

namespace ui::reading {

/// A switch of the reading screen that is kept in the project (FORMAT.md R10): no edit, so it is
/// not undone. Where the project can only be read it is not kept.
class KeptSwitch {
public:
    /// The store must outlive it.
    KeptSwitch(core::project::Store& store, std::string key)
        : m_store{store}, m_key{std::move(key)} {}

    [[nodiscard]] bool isOn() const {
        const auto snapshot = m_store.snapshot();
        const auto setting = snapshot->settings.find(m_key);
        return setting != snapshot->settings.end() && setting->second == "on";
    }
    void keep(bool on) { std::ignore = m_store.noteSetting(m_key, on ? "on" : "off"); }

private:
    core::project::Store& m_store;
    std::string m_key;
};

}  // namespace ui::reading
