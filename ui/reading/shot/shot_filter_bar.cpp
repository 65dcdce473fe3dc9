#include "ui/reading/shot/shot_filter_bar.h"

#include <QActionGroup>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QMenu>
#include <QToolButton>
#include <QVBoxLayout>
#include <array>

#include "ui/style/chip_row.h"
#include "ui/style/rank.h"
#include "ui/style/sign.h"
#include "ui/style/tokens.h"

namespace ui::reading {

using Filter = ShotListModel::Filter;

namespace {

struct Chip {
    Filter filter;
    const char* name;
    const char* tip;
};

constexpr std::array kChips{
    Chip{Filter::All, QT_TRANSLATE_NOOP("ui::reading::ShotFilterBar", "All"),
         QT_TRANSLATE_NOOP("ui::reading::ShotFilterBar", "Every shot")},
    Chip{Filter::Unread, QT_TRANSLATE_NOOP("ui::reading::ShotFilterBar", "To read"),
         QT_TRANSLATE_NOOP("ui::reading::ShotFilterBar", "Shots to read")},
    Chip{Filter::Doubtful, "?",
         QT_TRANSLATE_NOOP("ui::reading::ShotFilterBar", "Shots marked as doubtful")}};

QString chosenOf(const QString& kind, const std::string& name) {
    return QStringLiteral("%1: %2").arg(kind, QString::fromStdString(name));
}

}  // namespace

ShotFilterBar::ShotFilterBar(const core::project::Store& store, ShotListModel& model,
                             QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_model{model},
      m_words{new QLineEdit},
      m_more{new QToolButton},
      m_menu{new QMenu{this}},
      m_narrowed{new QToolButton} {
    m_words->setObjectName(QStringLiteral("shot_words"));
    m_words->setPlaceholderText(tr("Find a shot"));
    m_words->setAccessibleName(tr("Find a shot"));
    m_words->setToolTip(tr("Words of an implement, a hitter or a clip, or a number"));
    m_words->setClearButtonEnabled(true);
    m_words->addAction(style::signIcon(style::Sign::Search, *this), QLineEdit::LeadingPosition);
    m_more->setObjectName(QStringLiteral("shot_menu"));
    m_more->setText(tr("Show"));
    m_more->setToolTip(tr("Only some implement, hitter or clip; another order"));
    m_more->setPopupMode(QToolButton::InstantPopup);
    m_more->setMenu(m_menu);
    m_more->setFocusPolicy(Qt::TabFocus);
    auto* first = new QHBoxLayout;
    first->setSpacing(style::kPairPx);
    first->addWidget(m_words, 1);
    first->addWidget(m_more);
    QList<style::ChipRow::Chip> chips;
    for (const Chip& chip : kChips) {
        chips.append({tr(chip.name), tr(chip.tip)});
    }
    m_chips = new style::ChipRow{chips};
    connect(m_chips, &style::ChipRow::chosen, this,
            [this](int chip) { setFilter(kChips.at(static_cast<std::size_t>(chip)).filter); });
    m_narrowed->setObjectName(QStringLiteral("shot_narrowed"));
    m_narrowed->setToolTip(tr("Shows all shots again, in the order of the clips"));
    style::setRank(m_narrowed, style::Rank::Quiet);
    m_narrowed->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    m_narrowed->setFocusPolicy(Qt::TabFocus);
    connect(m_narrowed, &QToolButton::clicked, this, [this] {
        m_words->clear();
        m_model.setSort(ShotListModel::Sort::Film);
        m_model.setNarrowing({});
        setFilter(Filter::All);
    });
    connect(m_words, &QLineEdit::textChanged, this, [this](const QString& words) {
        narrow([&](auto& narrowing) { narrowing.words = words.trimmed(); });
    });
    connect(m_menu, &QMenu::aboutToShow, this, &ShotFilterBar::fillMenu);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(style::kPairPx);
    column->addLayout(first);
    column->addWidget(m_chips);
    column->addWidget(m_narrowed);
    refresh();
}

void ShotFilterBar::setFilter(Filter filter) {
    m_model.setFilter(filter);
    refresh();
    Q_EMIT changed();
}

void ShotFilterBar::showOnly(core::project::ImplementId implement) {
    m_words->clear();
    m_model.setNarrowing({.implement = implement});
    setFilter(Filter::All);
}

void ShotFilterBar::narrow(const std::function<void(ShotListModel::Narrowing&)>& edit) {
    auto narrowing = m_model.narrowing();
    edit(narrowing);
    m_model.setNarrowing(narrowing);
    refresh();
    Q_EMIT changed();
}

void ShotFilterBar::refresh() {
    int on = -1;
    for (int i = 0; i < static_cast<int>(kChips.size()); ++i) {
        const Filter filter = kChips.at(static_cast<std::size_t>(i)).filter;
        m_chips->setCount(i, m_model.count(filter));
        on = m_model.filter() == filter ? i : on;
    }
    m_chips->setOn(on);
    const QString text = narrowedText();
    m_narrowed->setVisible(!text.isEmpty());
    m_narrowed->setText(fontMetrics().elidedText(text, Qt::ElideMiddle, width() - 24));
}

QString ShotFilterBar::narrowedText() const {
    const auto snapshot = m_store.snapshot();
    const auto& narrowing = m_model.narrowing();
    QStringList parts;
    if (m_model.filter() == Filter::Kept) {
        parts << tr("kept");
    } else if (m_model.filter() == Filter::SetAside) {
        parts << tr("set aside");
    } else if (m_model.filter() == Filter::InDoubt) {
        parts << tr("in doubt");
    }
    if (!m_model.areNamesHidden()) {
        if (narrowing.implement) {
            parts << QString::fromStdString(implementName(*snapshot, *narrowing.implement));
        }
        const auto* hitter = narrowing.hitter ? snapshot->hitters.find(*narrowing.hitter) : nullptr;
        if (hitter != nullptr) {
            parts << chosenOf(tr("hitter"), hitter->name);
        }
        if (narrowing.clip) {
            parts << QString::fromStdString(clipName(*snapshot, *narrowing.clip));
        }
        if (m_model.sortedBy() != ShotListModel::Sort::Film) {
            parts << tr("sorted");
        }
    }
    return parts.isEmpty() ? QString{} : tr("✕ %1").arg(parts.join(QStringLiteral(" · ")));
}

void ShotFilterBar::fillMenu() {
    m_menu->clear();
    const auto addState = [this](const QString& text, Filter filter) {
        auto* action =
            m_menu->addAction(QStringLiteral("%1 (%2)").arg(text).arg(m_model.count(filter)), this,
                              [this, filter] { setFilter(filter); });
        action->setCheckable(true);
        action->setChecked(m_model.filter() == filter);
    };
    addState(tr("Kept"), Filter::Kept);
    addState(tr("Set aside"), Filter::SetAside);
    addState(tr("With open doubts"), Filter::InDoubt);
    if (m_model.areNamesHidden()) {
        return;
    }
    m_menu->addSeparator();
    const auto snapshot = m_store.snapshot();
    const auto addKind = [&](const QString& title, const auto& entities, auto member,
                             const auto& nameOfEntity) {
        auto* menu = m_menu->addMenu(title);
        auto* any = menu->addAction(tr("Any"), this, [this, member] {
            narrow([member](auto& narrowing) { (narrowing.*member).reset(); });
        });
        any->setCheckable(true);
        any->setChecked(!(m_model.narrowing().*member));
        for (const auto& entity : entities) {
            auto* action = menu->addAction(
                nameOfEntity(entity).replace(QLatin1Char('&'), QStringLiteral("&&")), this,
                [this, member, id = entity.id] {
                    narrow([member, id](auto& narrowing) { narrowing.*member = id; });
                });
            action->setCheckable(true);
            action->setChecked(m_model.narrowing().*member == entity.id);
        }
    };
    using Narrowing = ShotListModel::Narrowing;
    addKind(tr("Implement"), snapshot->implements, &Narrowing::implement, [&](const auto& each) {
        return QString::fromStdString(implementName(*snapshot, each.id));
    });
    addKind(tr("Hitter"), snapshot->hitters, &Narrowing::hitter,
            [](const auto& each) { return QString::fromStdString(each.name); });
    addKind(tr("Clip"), snapshot->clips, &Narrowing::clip,
            [&](const auto& each) { return QString::fromStdString(clipName(*snapshot, each.id)); });
    m_menu->addSeparator();
    addSorts(*m_menu);
}

void ShotFilterBar::addSorts(QMenu& menu) {
    using Sort = ShotListModel::Sort;
    for (const auto& [text, sort] : {std::pair{tr("Order of the clips"), Sort::Film},
                                     std::pair{tr("Most spin first"), Sort::Spin},
                                     std::pair{tr("Least certain first"), Sort::Uncertainty},
                                     std::pair{tr("By state"), Sort::State}}) {
        auto* action = menu.addAction(text, this, [this, sort = sort] {
            m_model.setSort(sort);
            refresh();
            Q_EMIT changed();
        });
        action->setCheckable(true);
        action->setChecked(m_model.sortedBy() == sort);
    }
}

}  // namespace ui::reading
