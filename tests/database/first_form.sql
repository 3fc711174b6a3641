CREATE TABLE decision (
	id INTEGER NOT NULL,
	paper VARCHAR(16) NOT NULL,
	label VARCHAR(40) NOT NULL,
	role VARCHAR(20) NOT NULL,
	attempt INTEGER NOT NULL,
	marks INTEGER,
	reason TEXT NOT NULL,
	comment TEXT NOT NULL,
	"by" TEXT NOT NULL,
	at VARCHAR(40) NOT NULL,
	PRIMARY KEY (id),
	FOREIGN KEY(paper) REFERENCES paper (code)
);
CREATE INDEX ix_decision_paper ON decision (paper);
CREATE INDEX ix_mark_script ON mark (script);
CREATE INDEX ix_paper_sitting ON paper (sitting);
CREATE INDEX ix_person_paper ON person (paper);
CREATE INDEX ix_script_paper ON script (paper);
CREATE TABLE mark (
	id INTEGER NOT NULL,
	script INTEGER NOT NULL,
	label VARCHAR(40) NOT NULL,
	marks INTEGER NOT NULL,
	"of" INTEGER NOT NULL,
	how VARCHAR(20) NOT NULL,
	why TEXT NOT NULL,
	slips TEXT NOT NULL,
	written TEXT NOT NULL,
	comment TEXT NOT NULL,
	"by" TEXT NOT NULL,
	at VARCHAR(40) NOT NULL,
	PRIMARY KEY (id),
	FOREIGN KEY(script) REFERENCES script (id)
);
CREATE TABLE paper (
	code VARCHAR(16) NOT NULL,
	sitting VARCHAR(16) NOT NULL,
	place INTEGER NOT NULL,
	issued TEXT NOT NULL,
	PRIMARY KEY (code),
	FOREIGN KEY(sitting) REFERENCES sitting (code)
);
CREATE TABLE person (
	id INTEGER NOT NULL,
	paper VARCHAR(16) NOT NULL,
	name TEXT NOT NULL,
	reference TEXT NOT NULL,
	at VARCHAR(40) NOT NULL,
	PRIMARY KEY (id),
	FOREIGN KEY(paper) REFERENCES paper (code)
);
CREATE TABLE script (
	id INTEGER NOT NULL,
	paper VARCHAR(16) NOT NULL,
	attempt INTEGER NOT NULL,
	role VARCHAR(20) NOT NULL,
	status VARCHAR(20) NOT NULL,
	cells TEXT NOT NULL,
	unread TEXT NOT NULL,
	line INTEGER NOT NULL,
	source TEXT NOT NULL,
	assessor TEXT NOT NULL,
	at VARCHAR(40) NOT NULL,
	PRIMARY KEY (id),
	FOREIGN KEY(paper) REFERENCES paper (code)
);
CREATE TABLE setting (
	id INTEGER NOT NULL,
	kind VARCHAR(20) NOT NULL,
	months INTEGER,
	"by" TEXT NOT NULL,
	at VARCHAR(40) NOT NULL,
	PRIMARY KEY (id)
);
CREATE TABLE sitting (
	code VARCHAR(16) NOT NULL,
	title TEXT NOT NULL,
	date VARCHAR(10) NOT NULL,
	class_name TEXT NOT NULL,
	head TEXT NOT NULL,
	retake_of VARCHAR(16),
	taken_at VARCHAR(40) NOT NULL,
	PRIMARY KEY (code)
);
CREATE TABLE step (
	number INTEGER NOT NULL,
	at VARCHAR(40) NOT NULL,
	PRIMARY KEY (number)
);
