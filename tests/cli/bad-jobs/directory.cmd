size directory.folder
