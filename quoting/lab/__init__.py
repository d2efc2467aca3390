"""Jobs and traces in the open standard between shop and lab: the Data Communication Standard, read and written."""
