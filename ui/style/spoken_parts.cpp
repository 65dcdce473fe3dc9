#include "ui/style/spoken_parts.h"

#include <QAccessible>
#include <QAccessibleActionInterface>
#include <QAccessibleWidget>
#include <algorithm>

namespace ui::style {
namespace {

class SpokenList;

/// A part by its number; what it says is asked of the widget each time.
class SpokenItem : public QAccessibleInterface, public QAccessibleActionInterface {
public:
    SpokenItem(const SpokenList& list, std::size_t index) : m_list{list}, m_index{index} {}

    [[nodiscard]] bool isValid() const override;
    [[nodiscard]] QObject* object() const override { return nullptr; }
    [[nodiscard]] QWindow* window() const override;
    [[nodiscard]] QAccessibleInterface* childAt(int, int) const override { return nullptr; }
    [[nodiscard]] QAccessibleInterface* parent() const override;
    [[nodiscard]] QAccessibleInterface* child(int) const override { return nullptr; }
    [[nodiscard]] int childCount() const override { return 0; }
    [[nodiscard]] int indexOfChild(const QAccessibleInterface*) const override { return -1; }
    [[nodiscard]] QString text(QAccessible::Text kind) const override;
    void setText(QAccessible::Text, const QString&) override {}
    [[nodiscard]] QRect rect() const override;
    [[nodiscard]] QAccessible::Role role() const override { return QAccessible::ListItem; }
    [[nodiscard]] QAccessible::State state() const override;
    void* interface_cast(QAccessible::InterfaceType kind) override {
        return kind == QAccessible::ActionInterface ? static_cast<QAccessibleActionInterface*>(this)
                                                    : nullptr;
    }
    [[nodiscard]] QStringList actionNames() const override;
    void doAction(const QString& name) override;
    [[nodiscard]] QStringList keyBindingsForAction(const QString&) const override { return {}; }

private:
    [[nodiscard]] SpokenPart part() const;

    const SpokenList& m_list;
    std::size_t m_index;
};

class SpokenList : public QAccessibleWidget {
public:
    SpokenList(QWidget* widget, SpokenParts& parts)
        : QAccessibleWidget{widget, QAccessible::List}, m_parts{parts} {}
    SpokenList(const SpokenList&) = delete;
    SpokenList& operator=(const SpokenList&) = delete;
    ~SpokenList() override {
        for (const QAccessible::Id id : m_items) {
            QAccessible::deleteAccessibleInterface(id);
        }
    }

    [[nodiscard]] std::vector<SpokenPart> parts() const { return m_parts.spokenParts(); }
    [[nodiscard]] QWidget* shownIn() const { return widget(); }

    [[nodiscard]] int childCount() const override { return static_cast<int>(parts().size()); }
    [[nodiscard]] QAccessibleInterface* child(int index) const override {
        if (index < 0 || index >= childCount()) {
            return nullptr;
        }
        while (m_items.size() <= static_cast<std::size_t>(index)) {
            m_items.push_back(
                QAccessible::registerAccessibleInterface(new SpokenItem{*this, m_items.size()}));
        }
        return QAccessible::accessibleInterface(m_items[static_cast<std::size_t>(index)]);
    }
    [[nodiscard]] QAccessibleInterface* childAt(int x, int y) const override {
        const QPoint at = widget()->mapFromGlobal(QPoint{x, y});
        const auto all = parts();
        const auto found = std::ranges::find_if(
            all, [&](const SpokenPart& each) { return each.place.contains(at); });
        return found == all.end() ? nullptr : child(static_cast<int>(found - all.begin()));
    }
    [[nodiscard]] int indexOfChild(const QAccessibleInterface* item) const override {
        for (std::size_t index = 0; index < m_items.size(); ++index) {
            if (QAccessible::accessibleInterface(m_items[index]) == item) {
                return static_cast<int>(index);
            }
        }
        return -1;
    }
    [[nodiscard]] QAccessibleInterface* focusChild() const override {
        const auto all = parts();
        const auto current = std::ranges::find(all, true, &SpokenPart::isCurrent);
        return current == all.end() ? nullptr : child(static_cast<int>(current - all.begin()));
    }

private:
    SpokenParts& m_parts;
    mutable std::vector<QAccessible::Id> m_items;  ///< made when they are asked for
};

SpokenPart SpokenItem::part() const {
    const auto all = m_list.parts();
    return m_index < all.size() ? all[m_index] : SpokenPart{};
}

bool SpokenItem::isValid() const {
    return m_list.isValid() && m_index < m_list.parts().size();
}

QWindow* SpokenItem::window() const {
    return m_list.window();
}

QAccessibleInterface* SpokenItem::parent() const {
    return QAccessible::queryAccessibleInterface(m_list.shownIn());
}

QString SpokenItem::text(QAccessible::Text kind) const {
    switch (kind) {
        case QAccessible::Name:
            return part().name;
        case QAccessible::Value:
        case QAccessible::Description:
            return part().value;
        default:
            return {};
    }
}

QRect SpokenItem::rect() const {
    const QRect place = part().place;
    return {m_list.shownIn()->mapToGlobal(place.topLeft()), place.size()};
}

QAccessible::State SpokenItem::state() const {
    const SpokenPart now = part();
    QAccessible::State state;
    state.selectable = static_cast<bool>(now.press);
    state.selected = now.isCurrent;
    state.focusable = true;
    state.focused = now.isCurrent && m_list.shownIn()->hasFocus();
    return state;
}

QStringList SpokenItem::actionNames() const {
    return part().press ? QStringList{pressAction()} : QStringList{};
}

void SpokenItem::doAction(const QString& name) {
    const SpokenPart now = part();
    if (name == pressAction() && now.press) {
        now.press();
    }
}

QAccessibleInterface* spokenList(const QString&, QObject* object) {
    auto* widget = qobject_cast<QWidget*>(object);
    auto* parts = dynamic_cast<SpokenParts*>(object);
    return widget != nullptr && parts != nullptr ? new SpokenList{widget, *parts} : nullptr;
}

}  // namespace

SpokenParts::SpokenParts() {
    static const bool kIsInstalled = [] {
        QAccessible::installFactory(spokenList);
        return true;
    }();
    static_cast<void>(kIsInstalled);
}

void SpokenParts::sayCurrent(QWidget& widget) {
    if (!QAccessible::isActive()) {
        return;
    }
    const auto all = spokenParts();
    const auto current = std::ranges::find(all, true, &SpokenPart::isCurrent);
    if (current != all.end()) {
        QAccessibleEvent event{&widget, QAccessible::Focus};
        event.setChild(static_cast<int>(current - all.begin()));
        QAccessible::updateAccessibility(&event);
    }
}

}  // namespace ui::style
