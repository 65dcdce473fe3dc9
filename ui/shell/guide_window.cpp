#include "ui/shell/guide_window.h"

#include <QHBoxLayout>
#include <QKeyEvent>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QScrollBar>
#include <QShortcut>
#include <QUrl>
#include <QVBoxLayout>

#include "core/guide/guide.h"
#include "ui/shell/guide_viewer.h"
#include "ui/style/rank.h"
#include "ui/style/tokens.h"

namespace ui::shell {
namespace {

constexpr int kPageRole = Qt::UserRole;
constexpr int kHeadingRole = Qt::UserRole + 1;
constexpr int kLettersAtTheLeft = 34;

}  // namespace

GuideWindow::GuideWindow(QWidget* parent)
    : QWidget{parent, Qt::Window},
      m_search{new QLineEdit},
      m_list{new QListWidget},
      m_back{new QPushButton{tr("&Back")}},
      m_viewer{new GuideViewer} {
    setObjectName(QStringLiteral("guide"));
    m_search->setObjectName(QStringLiteral("guide_search"));
    m_search->setPlaceholderText(tr("Search the guide"));
    m_search->setAccessibleName(tr("Search the guide"));
    m_search->setToolTip(tr("Sections that hold all these words (Ctrl+F)"));
    m_search->setClearButtonEnabled(true);
    m_list->setObjectName(QStringLiteral("guide_contents"));
    m_list->setAccessibleName(tr("Contents of the guide"));
    m_list->setWordWrap(true);
    m_list->setSpacing(style::kPairPx);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_back->setObjectName(QStringLiteral("guide_back"));
    m_back->setToolTip(tr("The page before (Alt+Left)"));
    style::setRank(m_back, style::Rank::Quiet);
    m_viewer->setObjectName(QStringLiteral("guide_page"));
    m_viewer->setAccessibleName(tr("Page of the guide"));

    auto* left = new QVBoxLayout;
    left->setSpacing(style::kBetweenPx);
    left->addWidget(m_search);
    left->addWidget(m_list, 1);
    left->addWidget(m_back);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(style::kPagePx, style::kPagePx, style::kPagePx, style::kPagePx);
    row->setSpacing(style::kCardsPx);
    row->addLayout(left);
    row->addWidget(m_viewer, 1);
    const int width = kLettersAtTheLeft * fontMetrics().averageCharWidth();
    m_list->setFixedWidth(width);
    m_search->setFixedWidth(width);

    connect(m_search, &QLineEdit::textChanged, this, &GuideWindow::fillList);
    connect(m_list, &QListWidget::currentItemChanged, this,
            [this](const QListWidgetItem* item) { onChosen(item); });
    connect(m_back, &QPushButton::clicked, this, &GuideWindow::goBack);
    connect(m_viewer, &QTextBrowser::anchorClicked, this,
            [this](const QUrl& link) { showPage(link.path().section(u'.', 0, 0)); });
    connect(new QShortcut{QKeySequence{Qt::ALT | Qt::Key_Left}, this}, &QShortcut::activated, this,
            &GuideWindow::goBack);
    connect(new QShortcut{QKeySequence::Find, this}, &QShortcut::activated, m_search,
            [this] { m_search->setFocus(Qt::ShortcutFocusReason); });
    resize(1000, 700);
    fillList();
    m_list->setFocus();
}

void GuideWindow::showPage(const QString& name, const QString& heading) {
    if (core::guide::findPage(name.toStdString()) == nullptr) {
        return;
    }
    if (name != m_page && !m_page.isEmpty()) {
        m_left.push_back({m_page, m_viewer->verticalScrollBar()->value()});
    }
    open(name);
    m_viewer->showSection(heading);
}

void GuideWindow::open(const QString& name) {
    if (name != m_page) {
        m_page = name;
        m_viewer->showPage(name);
        const auto* page = core::guide::findPage(name.toStdString());
        setWindowTitle(tr("%1 – Turnmark guide").arg(QString::fromStdString(page->title)));
    }
    m_back->setEnabled(!m_left.empty());
    if (m_search->text().isEmpty()) {
        const QSignalBlocker quiet{m_list};
        for (int i = 0; i < m_list->count(); ++i) {
            if (m_list->item(i)->data(kPageRole).toString() == name) {
                m_list->setCurrentRow(i);
            }
        }
    }
}

void GuideWindow::goBack() {
    if (m_left.empty()) {
        return;
    }
    const Place place = m_left.back();
    m_left.pop_back();
    open(place.page);
    m_viewer->verticalScrollBar()->setValue(place.scrolled);
}

void GuideWindow::fillList() {
    const QSignalBlocker quiet{m_list};
    m_list->clear();
    const auto add = [this](const std::string& text, const std::string& page,
                            const std::string& heading, const std::string& tip) {
        auto* item = new QListWidgetItem{QString::fromStdString(text), m_list};
        item->setData(kPageRole, QString::fromStdString(page));
        item->setData(kHeadingRole, QString::fromStdString(heading));
        item->setToolTip(QString::fromStdString(tip));
    };
    const QString words = m_search->text().trimmed();
    if (words.isEmpty()) {
        for (const auto& page : core::guide::pages()) {
            add(page.title, page.name, {}, {});
        }
        if (!m_page.isEmpty()) {
            open(m_page);
        }
        return;
    }
    for (const auto& hit : core::guide::search(words.toStdString())) {
        const std::string text =
            hit.heading.empty() ? hit.page->title : hit.heading + "\n    " + hit.page->title;
        add(text, hit.page->name, hit.heading, hit.line);
    }
    if (m_list->count() == 0) {
        auto* none = new QListWidgetItem{tr("No section holds all these words."), m_list};
        none->setFlags(Qt::NoItemFlags);
    }
}

void GuideWindow::onChosen(const QListWidgetItem* item) {
    if (item != nullptr) {
        showPage(item->data(kPageRole).toString(), item->data(kHeadingRole).toString());
    }
}

void GuideWindow::keyPressEvent(QKeyEvent* event) {
    if (event->key() != Qt::Key_Escape) {
        QWidget::keyPressEvent(event);
    } else if (!m_search->text().isEmpty()) {
        m_search->clear();
    } else {
        close();
    }
}

}  // namespace ui::shell
