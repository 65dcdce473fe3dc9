#include "ui/footage/clip_filter_bar.h"

#include <QHBoxLayout>
#include <QLineEdit>
#include <QSignalBlocker>
#include <array>

#include "ui/style/chip_row.h"
#include "ui/style/sign.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

using Show = models::ClipTableModel::Show;

constexpr std::array kShows{Show::All, Show::NotAssigned, Show::ToSettle};

}  // namespace

ClipFilterBar::ClipFilterBar(models::ClipTableModel& clips, QWidget* parent)
    : QWidget{parent},
      m_clips{clips},
      m_words{new QLineEdit},
      m_chips{new style::ChipRow{{{tr("All"), tr("Every clip")},
                                  {tr("Not assigned"), tr("Clips with a shot that belongs to no "
                                                          "implement yet")},
                                  {tr("To settle"), tr("Clips whose capture rate, file or time "
                                                       "stamps need a look")}}}} {
    m_words->setObjectName(QStringLiteral("clip_words"));
    m_words->setPlaceholderText(tr("Find a clip"));
    m_words->setAccessibleName(tr("Find a clip"));
    m_words->setToolTip(tr("Words of a clip's name, an implement or a hitter"));
    m_words->setClearButtonEnabled(true);
    m_words->addAction(style::signIcon(style::Sign::Search, *this), QLineEdit::LeadingPosition);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(style::kBetweenPx);
    row->addWidget(m_words, 1);
    row->addWidget(m_chips, 1);
    connect(m_words, &QLineEdit::textChanged, this, [this] { apply(m_clips.shown()); });
    connect(m_chips, &style::ChipRow::chosen, this,
            [this](int chip) { apply(kShows.at(static_cast<std::size_t>(chip))); });
    refresh();
}

void ClipFilterBar::apply(Show kind) {
    m_clips.show(kind, m_words->text());
    refresh();
}

void ClipFilterBar::showAll() {
    if (!m_words->text().isEmpty() || m_clips.shown() != Show::All) {
        const QSignalBlocker quiet{m_words};  // one change of the list, not two
        m_words->clear();
        apply(Show::All);
    }
}

void ClipFilterBar::refresh() {
    for (int chip = 0; chip < static_cast<int>(kShows.size()); ++chip) {
        const Show kind = kShows.at(static_cast<std::size_t>(chip));
        m_chips->setCount(chip, m_clips.count(kind));
        if (m_clips.shown() == kind) {
            m_chips->setOn(chip);
        }
    }
}

}  // namespace ui::footage
