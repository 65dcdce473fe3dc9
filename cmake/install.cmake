# What is installed, and the Debian package made of it (cmake/package.sh). Manual pages and completion are made from the
# command line's own help by cmake/command_help.sh into build/…/help before.
include(GNUInstallDirs)
install(TARGETS turnmark turnmark-cli RUNTIME)
install(FILES resources/desktop/turnmark.desktop DESTINATION "${CMAKE_INSTALL_DATADIR}/applications")
install(FILES resources/desktop/turnmark-mime.xml DESTINATION "${CMAKE_INSTALL_DATADIR}/mime/packages" RENAME turnmark.xml)
install(FILES resources/desktop/turnmark.metainfo.xml DESTINATION "${CMAKE_INSTALL_DATADIR}/metainfo")
install(FILES resources/icons/turnmark.svg DESTINATION "${CMAKE_INSTALL_DATADIR}/icons/hicolor/scalable/apps")
install(FILES resources/icons/turnmark-256.png DESTINATION "${CMAKE_INSTALL_DATADIR}/icons/hicolor/256x256/apps"
        RENAME turnmark.png)
install(FILES resources/desktop/copyright DESTINATION "${CMAKE_INSTALL_DATADIR}/doc/turnmark")
install(DIRECTORY "${PROJECT_BINARY_DIR}/help/man/" DESTINATION "${CMAKE_INSTALL_MANDIR}/man1" OPTIONAL)
install(DIRECTORY "${PROJECT_BINARY_DIR}/help/completion/"
        DESTINATION "${CMAKE_INSTALL_DATADIR}/bash-completion/completions" OPTIONAL)
install(DIRECTORY "${PROJECT_BINARY_DIR}/help/doc/" DESTINATION "${CMAKE_INSTALL_DATADIR}/doc/turnmark" OPTIONAL)

set(CPACK_GENERATOR DEB)
set(CPACK_PACKAGE_NAME turnmark)
set(CPACK_PACKAGE_CONTACT "The Turnmark authors <maintainers@example.org>")
set(CPACK_PACKAGE_DESCRIPTION_SUMMARY "spin rates of a struck ball, read from video")
set(CPACK_STRIP_FILES ON)
set(CPACK_PACKAGING_INSTALL_PREFIX /usr)
set(CPACK_INSTALL_DEFAULT_DIRECTORY_PERMISSIONS OWNER_READ OWNER_WRITE OWNER_EXECUTE GROUP_READ GROUP_EXECUTE WORLD_READ
                                                WORLD_EXECUTE)
set(CPACK_DEBIAN_FILE_NAME DEB-DEFAULT)
set(CPACK_DEBIAN_PACKAGE_SECTION science)
set(CPACK_DEBIAN_PACKAGE_SHLIBDEPS ON)
# The window's way to the display is a plug-in, which no library names.
set(CPACK_DEBIAN_PACKAGE_DEPENDS "qt6-qpa-plugins")
set(CPACK_DEBIAN_PACKAGE_RECOMMENDS "qt6-wayland")
set(CPACK_DEBIAN_PACKAGE_DESCRIPTION
    "For people who test sports equipment on their own: they film a marked ball
just after it is struck by different rackets, bats or string set-ups, and
want to publish spin rates that hold. Turnmark finds the shots in the
footage, reads the spin from the pictures or from marks set by hand, with
its uncertainty, brings up doubtful shots for a second look, compares
implements and publishes page, PDF, figures and tables.")
include(CPack)
