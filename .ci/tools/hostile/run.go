package hostile

import (
	"encoding/gob"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"syscall"
	"time"
)

// Outcome is what came of one run.
type Outcome struct {
	Status         int // -1 for one that was killed
	CPU            time.Duration
	MB             float64 // most memory
	Hung           bool
	Stdout, Stderr string
}

// longest is how long a run may take by the clock before it counts as one that hangs.
const longest = 5 * time.Second

// job is one run as the launcher is asked for it.
type job struct {
	Bin, Dir string
	Args     []string
	Env      []string
	Nobody   bool
}

// answer is what the launcher says of it; the output lies in files.
type answer struct {
	Status int
	CPU    time.Duration
	KB     int64
	Hung   bool
	Fault  string
}

// Files beside a job's folder.
const (
	inFile  = "in"
	outFile = "out"
	errFile = "err"
	folder  = "here"
)

// Launch runs jobs, one after the other, until there are no more. It is a process of its
// own, and small: Linux counts the memory of who starts a process as that process's.
func Launch(in io.Reader, out io.Writer) error {
	dec, enc := gob.NewDecoder(in), gob.NewEncoder(out)
	for {
		var j job
		if err := dec.Decode(&j); err == io.EOF {
			return nil
		} else if err != nil {
			return err
		}
		a, err := j.run()
		if err != nil {
			a.Fault = err.Error()
		}
		if err := enc.Encode(a); err != nil {
			return err
		}
	}
}

// run carries one job out.
func (j job) run() (answer, error) {
	cmd := exec.Command(j.Bin, j.Args...)
	cmd.Dir = filepath.Join(j.Dir, folder)
	cmd.Env = append(os.Environ(), j.Env...)
	cmd.SysProcAttr = &syscall.SysProcAttr{}
	if j.Nobody && os.Getuid() == 0 {
		cmd.SysProcAttr.Credential = &syscall.Credential{Uid: 65534, Gid: 65534}
	}
	for name, to := range map[string]*io.Writer{outFile: &cmd.Stdout, errFile: &cmd.Stderr} {
		f, err := os.Create(filepath.Join(j.Dir, name))
		if err != nil {
			return answer{}, err
		}
		defer f.Close()
		*to = f
	}
	in, err := os.Open(filepath.Join(j.Dir, inFile))
	if err != nil {
		return answer{}, err
	}
	defer in.Close()
	cmd.Stdin = in
	if err := cmd.Start(); err != nil {
		return answer{}, err
	}
	hung := make(chan bool, 1)
	watch := time.AfterFunc(longest, func() {
		hung <- true
		_ = cmd.Process.Kill()
	})
	err = cmd.Wait()
	watch.Stop()
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return answer{}, err
	}
	a := answer{Status: cmd.ProcessState.ExitCode(), CPU: cmd.ProcessState.UserTime() + cmd.ProcessState.SystemTime(), Hung: len(hung) > 0}
	if usage, ok := cmd.ProcessState.SysUsage().(*syscall.Rusage); ok {
		a.KB = usage.Maxrss
	}
	return a, nil
}

// Launcher is a process that runs jobs.
type Launcher struct {
	bin string
	dir string
	cmd *exec.Cmd
	to  io.WriteCloser
	enc *gob.Encoder
	dec *gob.Decoder
}

// StartLauncher starts this program anew, with an environment by which it calls Launch.
// It runs bin, in folders below dir.
func StartLauncher(bin, dir string, env ...string) (*Launcher, error) {
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), env...)
	cmd.Stderr = os.Stderr
	to, err := cmd.StdinPipe()
	if err != nil {
		return nil, err
	}
	from, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	l := &Launcher{bin: bin, dir: dir, cmd: cmd, to: to, enc: gob.NewEncoder(to), dec: gob.NewDecoder(from)}
	return l, cmd.Start()
}

// Close ends it.
func (l *Launcher) Close() error { return errors.Join(l.to.Close(), l.cmd.Wait()) }

// Run runs the command on a case, in a folder that is gone afterwards.
func (l *Launcher) Run(c Case, env ...string) (o Outcome, err error) {
	dir, err := os.MkdirTemp(l.dir, "case")
	if err != nil {
		return o, err
	}
	here := filepath.Join(dir, folder)
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	if err := errors.Join(os.Chmod(dir, 0o755), os.Mkdir(here, 0o755), c.write(here)); err != nil {
		return o, err
	}
	if err := os.WriteFile(filepath.Join(dir, inFile), []byte(c.Stdin), 0o644); err != nil {
		return o, err
	}
	if err := l.enc.Encode(job{l.bin, dir, c.Args, env, c.Nobody}); err != nil {
		return o, err
	}
	var a answer
	if err := l.dec.Decode(&a); err != nil {
		return o, err
	}
	if a.Fault != "" {
		return o, errors.New(a.Fault)
	}
	stdout, err := os.ReadFile(filepath.Join(dir, outFile))
	if err != nil {
		return o, err
	}
	stderr, err := os.ReadFile(filepath.Join(dir, errFile))
	// Linux counts the resident set in units of 1024 bytes.
	return Outcome{a.Status, a.CPU, float64(a.KB) / 1024, a.Hung, string(stdout), string(stderr)}, err
}
