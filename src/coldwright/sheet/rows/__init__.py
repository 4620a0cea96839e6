"""The figures of a report as rows of label, figure and remark: one set for terminal and page."""
