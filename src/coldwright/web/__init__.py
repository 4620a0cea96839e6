"""The web page, for one maker on one machine: served locally, with nothing fetched from elsewhere.

Routes only translate between a request and the layers below; no session is kept. What a page
shows follows from its address: the build, the revision, the draft and the file's version.
"""
