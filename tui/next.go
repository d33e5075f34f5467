package tui

import (
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"battwright/rules/page"
	"battwright/rules/pages"
	"battwright/tui/session"
)

// act does what an action says, from a screen.
func (s *state) act(a page.Action, from screen) tea.Cmd {
	return s.done(func() session.Next { return s.Act(a) }, from)
}

// done does something to the session and goes on with what comes of it. What was
// said about the answers before is over once one changed.
func (s *state) done(do func() session.Next, from screen) tea.Cmd {
	edits := s.Edits
	n := do()
	s.views = nil
	if s.Edits != edits {
		s.notice, s.drop = "", ""
		if n.Say != "" && s.Changed != pages.NoChange {
			n.Say = strings.TrimSpace(n.Say + " " + s.Changed)
		}
	}
	if n.Confirm != nil && n.Confirm.Ask != "" {
		if x, ok := from.(*viewScreen); ok {
			x.question = n.Confirm
		}
		return nil
	}
	if x, ok := from.(*viewScreen); ok {
		x.took(&n, s)
	}
	return s.next(n, from)
}

// passing are views that are left for good by what they lead to.
var passing = []page.ActionID{session.Steps, session.AskSheet, session.OrderExport}

// took looks after the view that something was chosen on.
func (x *viewScreen) took(n *session.Next, s *state) {
	if n.Last {
		x.cursor = len(x.now(s).Rows()) - 1
	}
	if slices.Contains(passing, x.at.ID) && n.Open.ID != "" {
		n.Close++
	}
}

// lostAgain is what to do about answers that would be lost.
var lostAgain = map[string]string{
	session.UnsavedHouse: ": the same again to go on, or save them first.",
	session.UnsavedWalk:  ": the same again to go on, or write it to a file first, under check.",
	session.KeptEarlier:  ": the same again to go on, or 1 to take them up.",
}

// next does what comes next: work runs outside the loop. What would lose answers
// is done when it is chosen a second time. from is the screen that led here, nil
// for none.
func (s *state) next(n session.Next, from screen) tea.Cmd {
	if n.Say != "" {
		s.notice = n.Say
	}
	asked, typed := from.(*prompt)
	switch {
	case n.Problem != "" && typed:
		asked.problem, asked.fresh = onScreen(n.Problem), asked.sure != ""
		return nil
	case n.Confirm != nil && s.drop != n.Confirm.Choice:
		s.drop = n.Confirm.Choice
		s.notice = n.Confirm.Lost + lostAgain[n.Confirm.Lost]
		return nil
	case n.Confirm != nil:
		s.notice, s.drop = "", ""
		return s.done(n.Confirm.Then, from)
	case n.Work != nil:
		s.track = n.Work.Track
		return s.work(n.Work.Doing, func() func(*state) tea.Cmd {
			then := n.Work.Do()
			return func(s *state) tea.Cmd { return s.done(then, from) }
		})
	case n.Saved:
		s.saved()
	}
	under := session.AtStart
	if from != nil {
		under = from.Step()
	}
	if typed {
		n.Close++
	}
	return s.moved(n, under)
}

// moved leads to another screen.
func (s *state) moved(n session.Next, under step) tea.Cmd {
	var to screen
	switch {
	case n.Prompt != nil:
		to = newPrompt(under, *n.Prompt)
	case n.Page != nil:
		to = &viewScreen{made: n.Page, step: under}
	case n.Open.ID != "" && n.Unread:
		s.unread = newScreen(n.Open, s, under)
	case n.Open.ID != "":
		to = newScreen(n.Open, s, under)
	}
	var cmds []tea.Cmd
	if n.Go {
		cmds = append(cmds, send(goMsg{to: n.To, open: n.Left}))
		n.Close = 0
	}
	if f, ok := to.(*form); ok && n.Left {
		f.whereLeft()
	}
	for range n.Close {
		cmds = append(cmds, send(backMsg{}))
	}
	switch {
	case to != nil && n.Close > 0:
		cmds[len(cmds)-1] = send(replaceMsg{to})
	case to != nil:
		cmds = append(cmds, send(pushMsg{to}))
	}
	if n.Quit || n.Saved && s.leave {
		cmds = append(cmds, send(quitMsg{}))
	}
	switch len(cmds) {
	case 0:
		return nil
	case 1:
		return cmds[0]
	}
	return tea.Sequence(cmds...)
}

// saved says what is not in the file that was just written.
func (s *state) saved() {
	if s.partly {
		s.notice += ". Not in it: what is still typed here."
	}
	s.partly = false
}
